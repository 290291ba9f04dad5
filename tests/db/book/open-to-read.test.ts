import { chmodSync, readdirSync, readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openBook, openToRead } from '#db/book/open.ts';
import { networkSaid } from '#db/worker/queries.ts';
import { olderBook } from '#tests/support/book-file.ts';
import { tempFile } from '#tests/support/temp.ts';

const standing = (file: string) => [readFileSync(file), readdirSync(dirname(file))];

describe('a book that cannot be written', () => {
  it('can be read, and is as it was afterwards', () => {
    const file = tempFile();
    openBook(file, { create: true }).close();
    chmodSync(file, 0o400);
    const before = standing(file);
    const book = openToRead(file);
    if (book === 'older') throw new Error('It was just made.');
    expect(networkSaid(book)).toMatchObject({ hosts: [], plainStaff: false });
    expect(() => book.sqlite.exec('DELETE FROM network')).toThrow();
    book.close();
    expect(standing(file)).toEqual(before);
  });

  it('is not asked what an older one cannot answer', () => {
    const file = olderBook();
    const before = standing(file);
    expect(openToRead(file)).toBe('older');
    expect(standing(file)).toEqual(before);
  });

  it('that is no book is a fault', () => {
    expect(() => openToRead(import.meta.filename)).toThrow();
    expect(() => openToRead(`${tempFile()}.none`)).toThrow();
  });
});
