import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { submit } from '#db/book/door.ts';
import { logHead } from '#db/book/log.ts';
import {
  APPLICATION_ID,
  DamagedBook,
  FromNewerVersion,
  NotABook,
  openBook,
  openBookInMemory,
  ReadOnlyBook,
} from '#db/book/open.ts';
import { AT, rowsOf } from '#tests/support/hall.ts';
import { whileLocked } from '#tests/support/rights.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

const nameIt = { command: 'association.set', input: { name: 'Lantern Ridge Fur Harvesters' } } as const;
const asOffice = { worker: 'Ada', station: 'office', at: AT } as const;

function newBook(): string {
  const file = tempFile();
  openBook(file, { create: true }).close();
  return file;
}

/** Opens a file that must be refused, and expects neither the file nor its folder to have changed. */
function refusal(file: string, options: { create?: boolean } = {}): Error {
  const before = bytesOf(file);
  const names = readdirSync(dirname(file));
  try {
    openBook(file, options).close();
  } catch (fault) {
    expect(readdirSync(dirname(file))).toEqual(names);
    expect(bytesOf(file)).toEqual(before);
    return fault as Error;
  }
  throw new Error(`${file} was opened`);
}

function bytesOf(file: string): string | null {
  try {
    return readFileSync(file, 'latin1');
  } catch {
    return null;
  }
}

describe('a new book', () => {
  it('calls itself a book and has an empty log', () => {
    const book = openBook(tempFile(), { create: true });
    expect(book.sqlite.pragma('application_id', { simple: true })).toBe(APPLICATION_ID);
    expect(Buffer.from('PLTY').readUInt32BE()).toBe(APPLICATION_ID);
    expect(logHead(book)).toEqual({ seq: 0, hash: '0'.repeat(64) });
    book.close();
  });

  it('is the same in memory, where its tables are made at once, and in a file, which goes through the migrations', () => {
    const [inFile, inMemory] = [openBook(tempFile(), { create: true }), openBookInMemory()];
    const told = [inFile, inMemory].map((book) => ({
      rows: rowsOf(book),
      made: book.sqlite.prepare('SELECT type, name, tbl_name, sql FROM sqlite_master ORDER BY type, name').all(),
      itself: ['application_id', 'user_version', 'encoding', 'page_size'].map((name) => book.sqlite.pragma(name)),
    }));
    expect(told[0]?.made.length).toBeGreaterThan(50);
    expect(told[1]).toEqual(told[0]);
    inFile.close();
    inMemory.close();
  });

  it('leaves nothing beside it once it is closed', () => {
    const file = newBook();
    expect(readdirSync(dirname(file))).toEqual(['sale.book']);
  });
});

describe('a book that is opened again', () => {
  it('is not written to by opening alone', () => {
    const file = newBook();
    const before = readFileSync(file);
    openBook(file).close();
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  // The settings that keep an entry through a pulled plug: sqlite.org/pragma.html#pragma_synchronous, wal.html.
  it('has its safety settings, also after a transaction', () => {
    const book = openBook(newBook());
    expect(submit(book, { ...nameIt, ...asOffice, key: 'a' }).ok).toBe(true);
    const settings = ['journal_mode', 'synchronous', 'foreign_keys', 'trusted_schema', 'busy_timeout'];
    const found = settings.map((name) => book.sqlite.pragma(name, { simple: true }));
    expect(found).toEqual(['wal', 2, 1, 0, 5000]);
    book.close();
  });

  it('holds what was written, though nobody closed it', () => {
    const file = newBook();
    const left = openBook(file);
    submit(left, { ...nameIt, ...asOffice, key: 'a' });
    const book = openBook(file);
    expect(logHead(book).seq).toBe(1);
    book.close();
    left.close();
  });
});

describe('what is no book', () => {
  it('is told: no file, a folder, an empty file', () => {
    const folder = tempFolder();
    expect(refusal(join(folder, 'none.book'))).toBeInstanceOf(NotABook);
    expect(existsSync(join(folder, 'none.book'))).toBe(false);
    mkdirSync(join(folder, 'a.book'));
    expect(refusal(join(folder, 'a.book'), { create: true }).message).toMatch(/is a folder\. Name the book's file/);
    writeFileSync(join(folder, 'empty.book'), '');
    expect(refusal(join(folder, 'empty.book'))).toBeInstanceOf(NotABook);
  });

  it.each([false, true])('is told: some other file, with create %s', (create) => {
    const file = tempFile('letter.txt');
    writeFileSync(file, 'Dear members, the sale is on the last Saturday of February. '.repeat(40));
    const fault = refusal(file, { create });
    expect(fault).toBeInstanceOf(NotABook);
    expect(fault.message).toMatch(/some other file\. Choose the book's own file\.$/);
  });

  it.each([false, true])('is told: a database of another kind, with create %s', (create) => {
    const file = tempFile('other.db');
    const other = new Database(file);
    other.exec('CREATE TABLE stock (name TEXT)');
    other.close();
    const fault = refusal(file, { create });
    expect(fault).toBeInstanceOf(NotABook);
    expect(fault.message).toMatch(/of another kind/);
  });

  it('is told: a book whose list of tables is damaged', () => {
    const file = newBook();
    const bytes = readFileSync(file);
    bytes.fill(0xff, 100, 4096);
    writeFileSync(file, bytes);
    expect(refusal(file)).toBeInstanceOf(DamagedBook);
  });
});

describe('a book that is not ours to write', () => {
  it('is told when it comes from a newer version', () => {
    const file = newBook();
    const sqlite = new Database(file);
    sqlite.prepare("INSERT INTO __drizzle_migrations (hash, created_at) VALUES ('later', 9999999999999)").run();
    sqlite.pragma('journal_mode = DELETE');
    sqlite.close();
    const fault = refusal(file);
    expect(fault).toBeInstanceOf(FromNewerVersion);
    expect(fault.message).toMatch(/newer Peltry\. Open it with that version/);
  });

  it('is told when it has as many updates as this version, and another one among them', () => {
    const file = newBook();
    const sqlite = new Database(file);
    sqlite.prepare('UPDATE __drizzle_migrations SET created_at = created_at + 1').run();
    sqlite.pragma('journal_mode = DELETE');
    sqlite.close();
    expect(refusal(file)).toBeInstanceOf(FromNewerVersion);
  });

  it('is told when the file cannot be written to', () => {
    const file = newBook();
    const fault = whileLocked(file, () => refusal(file));
    expect(fault).toBeInstanceOf(ReadOnlyBook);
    expect(fault.message).toMatch(/cannot be written to\. Allow it, or copy/);
  });
});
