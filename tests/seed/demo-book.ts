/** The demo, filled once into memory for all files of tests of a worker: none of them can write into it. */
import { type Book, openBookInMemory } from '#db/book/open.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { sale } from '#db/schema/index.ts';
import type { SaleFacts } from '#lib/sale/facts.ts';
import { fillBook } from '#seed/hold-sale.ts';

export interface DemoSale {
  readonly id: number;
  readonly stage: string;
  readonly facts: SaleFacts;
}

let filled: Book | undefined;

function filledOnce(): Book {
  const book = openBookInMemory();
  fillBook(book);
  book.sqlite.pragma('query_only = ON');
  return book;
}

export function demoBook(): { book: Book; sales: readonly DemoSale[] } {
  filled ??= filledOnce();
  const book = filled;
  const rows = book.db.select({ id: sale.id, stage: sale.stage }).from(sale).orderBy(sale.heldOn).all();
  return { book, sales: rows.map((row) => ({ ...row, facts: saleFacts(book, row.id) })) };
}
