/** Which sales there are, and which one a station works at when nobody says. */
import { desc, eq } from 'drizzle-orm';
import type { Book } from '../open.ts';
import { association, sale } from '../schema/index.ts';
import { statement } from '../statement.ts';
import { type SaleRow, saleById } from './find.ts';

export type AssociationRow = typeof association.$inferSelect;

export function allSales(book: Book): SaleRow[] {
  return findSales(book).all();
}

const findSales = statement(({ db }) => db.select().from(sale).orderBy(desc(sale.heldOn), desc(sale.id)).prepare());

/** The newest sale that is under way, else the newest planned one, else the newest: next year's plan waits its turn. */
export function currentSale(book: Book): SaleRow | undefined {
  const sales = allSales(book);
  return sales.find(isUnderWay) ?? sales.find(({ stage }) => stage === 'planned') ?? sales[0];
}

/** The sale under way that every station would leave for this one, were it under way too; undefined where none would. */
export function saleToLeave(book: Book, { id, stage }: SaleRow): SaleRow | undefined {
  const sales = allSales(book);
  const now = currentSale(book);
  if (!now || !isUnderWay(now) || isUnderWay({ stage })) return undefined;
  const place = (one: number) => sales.findIndex((other) => other.id === one);
  return place(id) < place(now.id) ? now : undefined;
}

function isUnderWay({ stage }: Pick<SaleRow, 'stage'>): boolean {
  return stage !== 'planned' && stage !== 'closed';
}

/** The sale that is being sold, or undefined: the one an address names if it is, or the newest where none is named. */
export function sellingSale(book: Book, named: string | undefined): SaleRow | undefined {
  const sales = named === undefined ? allSales(book) : [saleOfAddress(book, named)];
  return sales.find((sale) => sale?.stage === 'selling');
}

/** The sale that an address names, else the current one. */
export function saleOfAddress(book: Book, named: string | undefined): SaleRow | undefined {
  if (named === undefined) return currentSale(book);
  return /^\d{1,9}$/.test(named) ? saleById(book, Number.parseInt(named, 10)) : undefined;
}

export function theAssociation(book: Book): AssociationRow | undefined {
  return findAssociation(book).get();
}

const findAssociation = statement(({ db }) => db.select().from(association).where(eq(association.id, 1)).prepare());
