/** The demo, filled once into memory for the tests of one file. */
import { afterAll } from 'vitest';
import { type Book, openBookInMemory } from '#db/open.ts';
import { saleFacts } from '#db/queries/sale-facts.ts';
import { sale } from '#db/schema/index.ts';
import type { SaleFacts } from '#lib/facts.ts';
import { fillBook } from '#seed/fill-book.ts';

export interface DemoSale {
  readonly id: number;
  readonly stage: string;
  readonly facts: SaleFacts;
}

export function demoBook(): { book: Book; sales: readonly DemoSale[] } {
  const book = openBookInMemory();
  afterAll(() => book.close());
  fillBook(book);
  const rows = book.db.select({ id: sale.id, stage: sale.stage }).from(sale).orderBy(sale.heldOn).all();
  return { book, sales: rows.map((row) => ({ ...row, facts: saleFacts(book, row.id) })) };
}
