import { copyFileSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { checksumBeside, sha256Of } from '#db/book/files.ts';
import { openBook, UpdateFailed } from '#db/book/open.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { olderBook, rowsOfFile } from '#tests/support/book-file.ts';

const copiesBeside = (file: string) =>
  readdirSync(dirname(file)).filter((name) => name.includes('before-update') && name.endsWith('.book'));

function failure(file: string): Error {
  try {
    openBook(file).close();
  } catch (fault) {
    return fault as Error;
  }
  throw new Error(`${file} was opened`);
}

describe('a book of an older version', () => {
  it('is copied before it is brought up to date, and the copy is the older book', async () => {
    const file = olderBook();
    const before = rowsOfFile(file);
    openBook(file).close();
    const [name] = copiesBeside(file);
    expect(name).toBe(`${basename(file, '.book')}-before-update-1.book`);
    const copy = join(dirname(file), name ?? '');
    expect(rowsOfFile(copy)).toEqual(before);
    expect(checksumBeside(copy)).toEqual({ ok: true, value: await sha256Of(copy) });
    expect(verifyBook(copy)).toMatchObject({ ok: true });
    expect(verifyBook(file)).toMatchObject({ ok: true });
  });

  it('is not copied again once it is up to date', () => {
    const file = olderBook();
    openBook(file).close();
    openBook(file).close();
    expect(copiesBeside(file)).toHaveLength(1);
  });

  it('is as it was where an update fails half way, and the reason is said', () => {
    const file = olderBook();
    const sqlite = new Database(file);
    // The last table that the updates make is in the way: everything before it has been done by then.
    sqlite.exec('CREATE TABLE closing (something TEXT)');
    sqlite.close();
    const before = rowsOfFile(file);
    const fault = failure(file);
    expect(fault).toBeInstanceOf(UpdateFailed);
    expect(fault.message).toMatch(/could not be brought up to date, and is as it was before.*closing/);
    expect(rowsOfFile(file)).toEqual(before);
    expect(copiesBeside(file)).toHaveLength(1);
  });

  it('is as it was where the copy cannot be made', () => {
    const file = olderBook();
    const bytes = readFileSync(file);
    const elsewhere = join(dirname(file), 'kept');
    copyFileSync(file, elsewhere);
    // A name too long for the file system stands for a folder in which nothing can be made.
    const long = join(dirname(file), `${'x'.repeat(240)}.book`);
    copyFileSync(file, long);
    const fault = failure(long);
    expect(fault).toBeInstanceOf(UpdateFailed);
    expect(fault.message).toMatch(/no backup could be made before.*Nothing was changed/);
    expect(rowsOfFile(long)).toEqual(rowsOfFile(elsewhere));
    expect(readFileSync(file).equals(bytes)).toBe(true);
  });
});
