/** Which sales there are, and which one a station works at when nobody says. */
import { desc, ne, sql } from 'drizzle-orm';
import type { Book } from '../open.ts';
import { association, sale } from '../schema/index.ts';
import { type SaleRow, saleById } from './find.ts';

export type AssociationRow = typeof association.$inferSelect;

export function allSales(book: Book): SaleRow[] {
  return book.db.select().from(sale).orderBy(desc(sale.heldOn), desc(sale.id)).all();
}

/** The newest sale that is not closed, else the newest. */
export function currentSale(book: Book): SaleRow | undefined {
  const open = book.db.select().from(sale).where(ne(sale.stage, 'closed')).orderBy(desc(sale.heldOn)).limit(1).get();
  return open ?? book.db.select().from(sale).orderBy(desc(sale.heldOn)).limit(1).get();
}

/** The sale that an address names, else the current one. */
export function saleOfAddress(book: Book, named: string | undefined): SaleRow | undefined {
  if (named === undefined) return currentSale(book);
  return /^\d{1,9}$/.test(named) ? saleById(book, Number.parseInt(named, 10)) : undefined;
}

export function theAssociation(book: Book): AssociationRow | undefined {
  const find = book.prepared('association', (db) => db.select().from(association).where(sql`id = 1`).prepare());
  return find.get();
}
