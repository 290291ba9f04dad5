import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, it } from 'vitest';
import { integrityCheck } from '#app/server/integrity-check.mjs';
import { openBook } from '#db/book/open.ts';
import { tempFile } from '#tests/support/temp.ts';

function newBook(): string {
  const file = tempFile();
  openBook(file, { create: true }).close();
  return file;
}

describe('the look through the file before the book is opened', () => {
  it('finds nothing in a whole file, and leaves it and its folder as they were', async () => {
    const file = newBook();
    const before = [readFileSync(file), readdirSync(dirname(file))];
    expect(await integrityCheck(file)).toBe('ok');
    expect([readFileSync(file), readdirSync(dirname(file))]).toEqual(before);
  });

  it('sees what was written before the plug was pulled', async () => {
    const file = newBook();
    const book = openBook(file);
    book.sqlite.prepare('CREATE TABLE more (x)').run();
    expect(await integrityCheck(file)).toBe('ok');
    book.close();
  });

  it('says what is wrong with a damaged one', async () => {
    const file = newBook();
    const book = openBook(file);
    const page = book.sqlite.prepare<[], number>('SELECT max(rootpage) FROM sqlite_schema').pluck().get() ?? 0;
    book.close();
    // The page of one table, of 4,096 bytes; those of the schema are read before a file is opened at all.
    writeFileSync(file, readFileSync(file).fill(0xaa, (page - 1) * 4096, page * 4096));
    expect(await integrityCheck(file)).toMatch(/^(?!ok$)./);
  });

  it('says nothing where there is no file, or one of another kind: whoever opens it does', async () => {
    const file = tempFile();
    expect(await integrityCheck(file)).toBeUndefined();
    writeFileSync(file, 'A letter to the members.');
    expect(await integrityCheck(file)).toBeUndefined();
  });
});
