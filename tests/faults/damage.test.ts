import { copyFileSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { copiesIn } from '#db/book/copies.ts';
import { keepCopy } from '#db/book/keep-copy.ts';
import { CannotOpenBook, openBook } from '#db/book/open.ts';
import { openQuietly } from '#db/book/open-for-reading.ts';
import { differenceInContents } from '#db/verify/contents.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { chance, rounds } from '#tests/faults/support/chance.ts';
import { fullBook, rowsOfFile } from '#tests/support/book-file.ts';
import { giveTo, openHall } from '#tests/support/hall.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

const WHOLE = fullBook();
const BYTES = readFileSync(WHOLE);
const ROWS = rowsOfFile(WHOLE);
const PAGE = 4096;

function damaged(change: (bytes: Buffer) => void): string {
  const file = tempFile();
  const bytes = Buffer.from(BYTES);
  change(bytes);
  writeFileSync(file, bytes);
  return file;
}

/** Either the damage is said in a sentence, or no row is another by it. Says which. */
function judged(file: string): 'said' | 'harmless' {
  const report = verifyBook(file);
  if (!report.ok) {
    expect(report.problems.length).toBeGreaterThan(0);
    for (const problem of report.problems) expect(problem).toMatch(/^\S.*\.$/su);
    return 'said';
  }
  expect(rowsOfFile(file)).toEqual(ROWS);
  return 'harmless';
}

describe('a damaged file', () => {
  it('with one bit flipped is found out, or holds the same rows', { timeout: 3_600_000 }, () => {
    const { below } = chance('bit flips');
    const seen = { said: 0, harmless: 0 };
    const all = rounds(40);
    for (let round = 0; round < all; round += 1) {
      const [at, bit] = [below(BYTES.length), below(8)];
      const file = damaged((bytes) => {
        bytes[at] = (bytes[at] ?? 0) ^ (1 << bit);
      });
      seen[judged(file)] += 1;
    }
    console.log(`${all} bit flips: ${seen.said} found out, ${seen.harmless} where no row is another`);
    expect(seen.said + seen.harmless).toBe(all);
  });

  it.each([1, 99, PAGE, PAGE * 3, BYTES.length - PAGE, BYTES.length - 1])(
    'cut off after %i bytes is found out',
    (length) => {
      const file = damaged(() => undefined);
      truncateSync(file, length);
      expect(judged(file)).toBe('said');
    },
  );

  it('with a zeroed header is no book, in a sentence, and is left as it is', () => {
    const file = damaged((bytes) => bytes.fill(0, 0, 100));
    const before = readFileSync(file);
    expect(judged(file)).toBe('said');
    expect(() => openBook(file)).toThrow(CannotOpenBook);
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  it('with pages of zeros or of chance is found out', () => {
    for (const fill of [0, 0xa5]) {
      for (let page = 1; page < BYTES.length / PAGE; page += 9) {
        judged(damaged((bytes) => bytes.fill(fill, page * PAGE, (page + 1) * PAGE)));
      }
    }
  });

  // A log that holds every page of the other book makes the file that other book, whole: only its head tells them apart.
  it('beside the write-ahead log of another book is found out', () => {
    const file = damaged(() => undefined);
    const other = tempFile();
    openHall({ file: other }).book.close();
    const book = openBook(other);
    for (let n = 0; n < 5; n += 1) giveTo(book, 'person.enrol', { input: { name: `Stranger ${n}` } });
    copyFileSync(`${other}-wal`, `${file}-wal`);
    book.close();
    expect(judged(file)).toBe('said');
  });

  it('that SQLite alone finds whole is found out by the log', () => {
    const file = damaged(() => undefined);
    const sqlite = new Database(file);
    sqlite.exec(
      'DROP TRIGGER outcome_no_update; UPDATE outcome SET price_cents = price_cents + 100 WHERE price_cents > 0',
    );
    expect(sqlite.pragma('quick_check', { simple: true })).toBe('ok');
    sqlite.close();
    expect(judged(file)).toBe('said');
  });
});

const TEXTS = Object.values(ROWS)
  .flat()
  .flatMap((row) => Object.values(row as Record<string, unknown>))
  .filter((cell): cell is string => typeof cell === 'string' && cell.length > 3);

/** One bit of a text that stands in some row is another, in one of the places where the file has that text. */
function flipped(below: (limit: number) => number): string {
  const text = Buffer.from(TEXTS[below(TEXTS.length)] ?? '');
  const places: number[] = [];
  for (let place = BYTES.indexOf(text); place >= 0; place = BYTES.indexOf(text, place + 1)) places.push(place);
  // A long text is in several pieces in the file: then the flip is anywhere behind the first page.
  const start = places[below(Math.max(1, places.length))] ?? PAGE + below(BYTES.length - PAGE - text.length);
  const at = start + below(text.length);
  const bit = below(8);
  return damaged((bytes) => {
    bytes[at] = (bytes[at] ?? 0) ^ (1 << bit);
  });
}

/** Whether every row can be read and is the one that was written. */
function sameRows(file: string): boolean {
  try {
    return isDeepStrictEqual(rowsOfFile(file), ROWS);
  } catch {
    return false;
  }
}

describe('a bit that flips', () => {
  it('in a copy, in a row, is found by comparing it with the book', { timeout: 3_600_000 }, () => {
    const { below } = chance('flips in a copy');
    const original = openQuietly(WHOLE);
    const seen = { changed: 0, harmless: 0 };
    for (let round = 0; round < rounds(200); round += 1) {
      const file = flipped(below);
      const isSame = sameRows(file);
      seen[isSame ? 'harmless' : 'changed'] += 1;
      expect([file, isSame || isToldOf(file, original)]).toEqual([file, true]);
    }
    original.close();
    console.log(`flips in a copy: ${JSON.stringify(seen)}`);
    expect(seen.changed).toBeGreaterThan(0);
  });

  it('in the book is found in every backup of it, or keeps one from being made', { timeout: 3_600_000 }, async () => {
    const { below } = chance('flips in the book');
    const seen = { refused: 0, notWhole: 0, harmless: 0 };
    for (let round = 0; round < rounds(40); round += 1) {
      const file = flipped(below);
      const isSame = sameRows(file);
      const folder = tempFolder();
      const kept = await keepCopy(file, folder, new Date('2026-02-28T12:00:00Z'));
      // As every start has it proved, soon after it.
      expect([file, isSame || !verifyBook(file).ok]).toEqual([file, true]);
      if (kept.ok && kept.proof.ok) {
        expect([file, isSame]).toEqual([file, true]);
        seen.harmless += 1;
      } else if (kept.ok) {
        expect(copiesIn(folder, file)).toMatchObject([{ about: { proof: { ok: false } } }]);
        seen.notWhole += 1;
      } else seen.refused += 1;
      rmSync(folder, { recursive: true });
      rmSync(dirname(file), { recursive: true });
    }
    console.log(`flips in the book: ${JSON.stringify(seen)}`);
    expect(seen.notWhole).toBeGreaterThan(0);
  });
});

/** A copy whose pages cannot even be read is told of by what reads it. */
function isToldOf(file: string, original: Database.Database): boolean {
  let copy: Database.Database | undefined;
  try {
    copy = openQuietly(file);
    return differenceInContents(copy, original) !== null;
  } catch {
    return true;
  } finally {
    copy?.close();
  }
}
