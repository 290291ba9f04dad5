/** Books for the bench, in files of their own that go with the bench's folder. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Book, openBook, openBookInMemory } from '#db/book/open.ts';
import { importFolder } from '#db/exchange/import-folder.ts';
import { bigFolder, type Size } from '#tests/support/big-folder.ts';

export const AT = '2026-02-28T18:00:00.000Z';

export function newFile(name = 'bench.book'): string {
  return join(mkdtempSync(join(tmpdir(), 'bench-')), name);
}

/** One seller for twenty lots and one buyer for two hundred, as in the largest book that is asked of the program. */
export function sizeOf(lots: number, called = lots): Size {
  return { lots, called, sellers: Math.max(1, Math.round(lots / 20)), buyers: Math.max(2, Math.round(lots / 200)) };
}

function importInto(book: Book, size: Size): void {
  const done = importFolder(book, bigFolder(size), { worker: 'bench', at: AT });
  if (!done.ok) throw new Error(done.problems.slice(0, 3).join('\n'));
}

/** A book with one sale; in memory where no file is named. */
export function bookOf(size: Size, file?: string): Book {
  const book = file === undefined ? openBookInMemory() : openBook(file, { create: true });
  importInto(book, size);
  return book;
}
