import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, it } from 'vitest';
import { looked, takeLook } from '#app/look.ts';
import { lookThrough } from '#app/server/look.mjs';
import { openBook } from '#db/open.ts';
import { tempFile } from '#tests/support/temp.ts';

interface Look {
  readonly file: string;
  readonly found: string | undefined;
  readonly done: Promise<unknown>;
}

async function found(file: string): Promise<string | undefined> {
  const look = lookThrough(file) as Look;
  await look.done;
  return look.found;
}

function newBook(): string {
  const file = tempFile();
  openBook(file, { create: true }).close();
  return file;
}

describe('the look through the file before the book is opened', () => {
  it('finds nothing in a whole file, and leaves it and its folder as they were', async () => {
    const file = newBook();
    const before = [readFileSync(file), readdirSync(dirname(file))];
    expect(await found(file)).toBe('ok');
    expect([readFileSync(file), readdirSync(dirname(file))]).toEqual(before);
  });

  it('sees what was written before the plug was pulled', async () => {
    const file = newBook();
    const book = openBook(file);
    book.sqlite.prepare('CREATE TABLE more (x)').run();
    expect(await found(file)).toBe('ok');
    book.close();
  });

  it('says what is wrong with a damaged one', async () => {
    const file = newBook();
    const bytes = readFileSync(file);
    // One page of 4,096 bytes in the middle of the tables; the first ones are read before a file is opened at all.
    writeFileSync(file, bytes.fill(0xaa, bytes.length - 4096));
    expect(await found(file)).toMatch(/^(?!ok$)./);
  });

  it('says nothing where there is no file, or one of another kind: whoever opens it does', async () => {
    const file = tempFile();
    expect(await found(file)).toBeUndefined();
    writeFileSync(file, 'A letter to the members.');
    expect(await found(file)).toBeUndefined();
  });

  it('is good for one opening of the file it was of', async () => {
    const place = globalThis as { peltryLook?: unknown };
    const file = newBook();
    const look = () => {
      place.peltryLook = lookThrough(file);
      return looked();
    };
    await look();
    expect(takeLook(file)).toBe('ok');
    expect(takeLook(file)).toBeUndefined();
    await look();
    expect(takeLook(`${file}.other`)).toBeUndefined();
  });
});
