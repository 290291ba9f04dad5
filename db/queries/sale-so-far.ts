/** How far a sale and its goods have come, as far as its terms and they are concerned. */
import { and, count, eq, isNull, type SQL } from 'drizzle-orm';
import type { GoodsSoFar, SoFar } from '#lib/decide-amend-sale.ts';
import type { Sale } from '#lib/facts.ts';
import type { Book } from '../open.ts';
import { bid, invoice, lot, outcome, sale, settlement, tag } from '../schema/index.ts';
import type { SaleRow } from './find.ts';

/** A yearly sale may keep its name: the name and the day together say which it is. `except` is the sale that asks. */
export function isPlanned(book: Book, { name, heldOn }: Pick<Sale, 'name' | 'heldOn'>, except?: number): boolean {
  const same = and(eq(sale.name, name), eq(sale.heldOn, heldOn));
  const found = book.db.select({ id: sale.id }).from(sale).where(same).all();
  return found.some(({ id }) => id !== except);
}

export function saleSoFar(book: Book, { id, stage }: SaleRow): SoFar {
  const sheets = book.db.select({ n: count() }).from(settlement).where(eq(settlement.saleId, id)).get();
  const invoices = book.db.select({ n: count() }).from(invoice).where(eq(invoice.saleId, id)).get();
  const lots = book.db.select({ n: count() }).from(lot).where(eq(lot.saleId, id)).get();
  return {
    stage,
    issued: (sheets?.n ?? 0) + (invoices?.n ?? 0) > 0,
    lots: lots?.n ?? 0,
    called: outcomesOf(book, eq(lot.saleId, id)) + bidsOf(book, eq(lot.saleId, id)),
  };
}

/** How many lots, tags and outcomes there are of goods. */
export function goodsSoFar(book: Book, goodsId: number): GoodsSoFar {
  const own = eq(lot.goodsId, goodsId);
  const lots = book.db.select({ n: count() }).from(lot).where(own).get();
  const tags = book.db.select({ n: count() }).from(tag).innerJoin(lot, eq(lot.id, tag.lotId)).where(own).get();
  const uncounted = book.db
    .select({ n: count() })
    .from(lot)
    .where(and(own, isNull(lot.count)))
    .get();
  const called = outcomesOf(book, own);
  return { lots: lots?.n ?? 0, uncounted: uncounted?.n ?? 0, tags: tags?.n ?? 0, called };
}

function outcomesOf(book: Book, which: SQL): number {
  const rows = book.db.select({ n: count() }).from(outcome).innerJoin(lot, eq(lot.id, outcome.lotId));
  return rows.where(which).get()?.n ?? 0;
}

function bidsOf(book: Book, which: SQL): number {
  const rows = book.db.select({ n: count() }).from(bid).innerJoin(lot, eq(lot.id, bid.lotId));
  return rows.where(which).get()?.n ?? 0;
}
