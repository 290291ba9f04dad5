import { copyFileSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { copiesIn } from '#db/book/copies.ts';
import { keepCopy } from '#db/book/keep-copy.ts';
import { openBook } from '#db/book/open.ts';
import { restoreBook } from '#db/book/restore.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { addDays } from '#lib/date/date.ts';
import { fullBook, MARKS, olderBook, rowsOfFile, rowsRestored, withTextFlipped } from '#tests/support/book-file.ts';
import { accepted, giveTo, openHall } from '#tests/support/hall.ts';
import { cli } from '#tests/support/process.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

const BOOK = fullBook();
const on = (moment: string) => new Date(`${moment}Z`);

describe('a dated copy', () => {
  it('has its sum and its head beside it, and restores on an empty folder to the same book', async () => {
    const folder = tempFolder('stick');
    const kept = await keepCopy(BOOK, folder, on('2026-02-28T14:05:09.123'));
    const [name] = readdirSync(folder).filter((one) => one.endsWith('.book'));
    expect(name).toMatch(/-20260228T140509123Z\.book$/);
    expect(readdirSync(folder).sort()).toEqual([name, `${name}.json`, `${name}.sha256`]);
    const [copy] = copiesIn(folder, BOOK);
    expect(copy).toMatchObject({ at: '2026-02-28T14:05:09.123Z', about: { logHead: verifyBook(BOOK).chain.head } });
    expect(kept).toMatchObject({ ok: true, letGo: [], sha256: copy?.about?.sha256 });
    const fresh = tempFile('fresh.book');
    expect(await restoreBook(join(folder, name ?? ''), fresh, new Date())).toMatchObject({ ok: true, equal: true });
    expect(rowsRestored(fresh)).toEqual(rowsOfFile(BOOK));
  });

  it('lets older ones of the same book go by the rule, with what stands beside them, and nothing else', async () => {
    const folder = tempFolder('stick');
    for (const moment of ['2026-02-26T09:00:00', '2026-02-26T10:00:00']) await keepCopy(BOOK, folder, on(moment));
    const letGo = [expect.stringContaining('20260226T090000000Z')];
    expect(await keepCopy(BOOK, folder, on('2026-02-27T09:00:00'))).toMatchObject({ ok: true, letGo });
    expect(await keepCopy(BOOK, folder, on('2026-02-28T08:00:00'))).toMatchObject({ ok: true, letGo: [] });
    expect(readdirSync(folder).filter((name) => name.includes('20260226T09'))).toEqual([]);
    expect(copiesIn(folder, BOOK).map(({ at }) => at.slice(0, 13))).toEqual([
      ...['2026-02-28T08', '2026-02-27T09', '2026-02-26T10'],
    ]);
  });

  it('keeps all of an evening by the day of the hall', async () => {
    const inDenver = tempFile('denver.book');
    const hall = openHall({ file: inDenver });
    hall.must('association.set', { name: 'Lantern Ridge', timeZone: 'America/Denver' });
    hall.book.close();
    const folder = tempFolder('stick');
    for (const time of ['2026-11-29T21:00:00', '2026-11-29T23:55:00']) await keepCopy(inDenver, folder, on(time));
    expect(await keepCopy(inDenver, folder, on('2026-11-30T03:05:00'))).toMatchObject({ ok: true, letGo: [] });
  });

  it('is made of a book of an older version too, which keeps no time zone', async () => {
    expect(await keepCopy(olderBook(), tempFolder('stick'), new Date())).toMatchObject({ ok: true, letGo: [] });
  });

  it('is proved by replay, and says so beside it', async () => {
    const folder = tempFolder('stick');
    const kept = await keepCopy(BOOK, folder, on('2026-02-28T14:05:09.123'));
    expect(kept).toMatchObject({ ok: true, proof: { ok: true, words: expect.stringMatching(/make the same book/) } });
    expect(copiesIn(folder, BOOK)).toMatchObject([{ about: { proof: { ok: true } } }]);
  });

  it('of a book in which a bit flipped is kept and told, and no older one goes from then on', async () => {
    const [file, folder] = [tempFile('lantern.book'), tempFolder('stick')];
    copyFileSync(BOOK, file);
    await keepCopy(file, folder, on('2026-02-26T09:00:00'));
    copyFileSync(withTextFlipped(BOOK, MARKS.note), file);
    for (const moment of ['2026-02-26T10:00:00', '2026-02-28T08:00:00']) {
      expect(await keepCopy(file, folder, on(moment))).toMatchObject({ ok: true, letGo: [], proof: { ok: false } });
    }
    const ran = await cli('keep', folder, '--book', file);
    expect([ran.code, ran.err]).toEqual([
      1,
      expect.stringMatching(/This backup is not whole: .*lot.*Verify the book\./),
    ]);
    copyFileSync(BOOK, file);
    // The one that is not whole has taken the place of no other, and is kept to be looked at.
    expect(await keepCopy(file, folder, on('2026-03-01T08:00:00'))).toMatchObject({ ok: true, letGo: [] });
  });

  it('is refused where the stick is not in, and no folder is made in its place', async () => {
    const folder = join(tempFolder(), 'stick');
    expect(await keepCopy(BOOK, folder, new Date())).toMatchObject({ ok: false, code: 'unknown' });
    expect(existsSync(folder)).toBe(false);
  });

  it('is listed also where the words beside it are lost', async () => {
    const folder = tempFolder('stick');
    await keepCopy(BOOK, folder, on('2026-02-28T14:05:09.123'));
    const [copy] = copiesIn(folder, BOOK);
    expect(readFileSync(`${copy?.file}.json`, 'utf8')).toContain('"seq"');
    rmSync(`${copy?.file}.json`);
    expect(copiesIn(folder, BOOK)).toMatchObject([{ name: copy?.name, about: null }]);
  });
});

describe('a book that lost its end', () => {
  const enrol = (file: string, name: string) => {
    const book = openBook(file);
    accepted(giveTo(book, 'person.enrol', { input: { name }, key: `enrol ${name}` }));
    book.close();
  };
  const headOf = (file: string) => verifyBook(file).chain.head.seq;
  /** As it is in the file, without what a write-ahead log held. */
  const putBack = (from: string, file: string) => {
    for (const beside of ['-wal', '-shm']) rmSync(`${file}${beside}`, { force: true });
    copyFileSync(from, file);
  };

  it('keeps the one copy that has it through more than a month of thinning, and each copy that is made says so', async () => {
    const [file, before, folder] = [tempFile('lantern.book'), tempFile(), tempFolder('stick')];
    copyFileSync(BOOK, file);
    const days = Array.from({ length: 40 }, (_, back) => addDays('2026-01-01', back));
    let lost = '';
    for (const [day, date] of days.entries()) {
      const keep = (hour: string) => keepCopy(file, folder, on(`${date}T${hour}:00:00`));
      enrol(file, `Morning ${day}`);
      expect(await keep('09')).toMatchObject({ ok: true });
      if (day === 10) {
        copyFileSync(file, before);
        for (let entry = 0; entry < 5; entry += 1) enrol(file, `Lost ${entry}`);
        expect(await keep('12')).toMatchObject({ ok: true, ahead: [] });
        lost = copiesIn(folder, file)[0]?.name ?? '';
        putBack(before, file);
      }
      const kept = await keep('15');
      // One entry a day since.
      const fewer = day - 10;
      expect(kept).toMatchObject({ ok: true, ahead: day < 10 ? [] : [{ name: lost, more: 5, fewer }] });
    }
    const left = copiesIn(folder, file);
    expect(left.map(({ name }) => name)).toContain(lost);
    // Two of today, one of each of two weeks, one of each of five weeks at most, and the one that is not thinned.
    expect(left.length).toBeLessThanOrEqual(2 + 14 + 5 + 1);
    const fresh = tempFile('fresh.book');
    expect(await restoreBook(join(folder, lost), fresh, new Date())).toMatchObject({ ok: true, equal: true });
    // And the line that begins its epoch.
    expect(headOf(fresh)).toBe(headOf(before) + 5 + 1);
  });

  it('is told for the longest of several, and for one whose file cannot be read', async () => {
    const [file, before, folder] = [tempFile('lantern.book'), tempFile(), tempFolder('stick')];
    copyFileSync(BOOK, file);
    copyFileSync(BOOK, before);
    for (const hour of ['09', '10', '11']) {
      enrol(file, `At ${hour}`);
      await keepCopy(file, folder, on(`2026-02-28T${hour}:00:00`));
    }
    putBack(before, file);
    const name = expect.stringContaining('T110000000Z');
    expect(await keepCopy(file, folder, on('2026-02-28T12:00:00'))).toMatchObject({
      ahead: [{ name, more: 3, fewer: 0 }],
    });
    const ran = await cli('keep', folder, '--book', file);
    expect([ran.code, ran.err]).toEqual([
      0,
      expect.stringMatching(/has 3 entries that the book does not: .*T110000000Z/),
    ]);
    writeFileSync(join(folder, copiesIn(folder, file).find((copy) => /T11/.test(copy.name))?.name ?? ''), 'no book');
    const unread = await keepCopy(file, folder, on('2026-02-28T13:00:00'));
    expect(unread).toMatchObject({
      ahead: [
        { name, more: null },
        { name: expect.stringContaining('T10'), more: 2 },
      ],
    });
  });
});
