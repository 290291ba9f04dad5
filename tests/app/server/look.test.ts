import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, it } from 'vitest';
import { lookThrough } from '#app/server/look.mjs';
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
    expect(await lookThrough(file)).toBe('ok');
    expect([readFileSync(file), readdirSync(dirname(file))]).toEqual(before);
  });

  it('sees what was written before the plug was pulled', async () => {
    const file = newBook();
    const book = openBook(file);
    book.sqlite.prepare('CREATE TABLE more (x)').run();
    expect(await lookThrough(file)).toBe('ok');
    book.close();
  });

  it('says what is wrong with a damaged one', async () => {
    const file = newBook();
    const bytes = readFileSync(file);
    // One page of 4,096 bytes in the middle of the tables; the first ones are read before a file is opened at all.
    writeFileSync(file, bytes.fill(0xaa, bytes.length - 4096));
    expect(await lookThrough(file)).toMatch(/^(?!ok$)./);
  });

  it('says nothing where there is no file, or one of another kind: whoever opens it does', async () => {
    const file = tempFile();
    expect(await lookThrough(file)).toBeUndefined();
    writeFileSync(file, 'A letter to the members.');
    expect(await lookThrough(file)).toBeUndefined();
  });
});
