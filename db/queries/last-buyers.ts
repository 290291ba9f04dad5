/** Last year's buyers, for giving them their numbers again. */
import { and, asc, desc, eq, lt } from 'drizzle-orm';
import { decideCarry } from '#lib/buyer/decide-carry.ts';
import type { Book } from '../open.ts';
import { buyer, sale as saleTable } from '../schema/index.ts';
import { type BuyerRow, type SaleRow, saleById } from './find.ts';

/** The newest sale held before this one that has buyers. */
export function lastSaleWithBuyers(book: Book, sale: Pick<SaleRow, 'heldOn'>): number | undefined {
  const row = book.db
    .select({ id: saleTable.id })
    .from(saleTable)
    .innerJoin(buyer, eq(buyer.saleId, saleTable.id))
    .where(and(lt(saleTable.heldOn, sale.heldOn)))
    .orderBy(desc(saleTable.heldOn), desc(saleTable.id))
    .limit(1)
    .get();
  return row?.id;
}

/** The buyers of a sale by number. */
export function buyersOfSale(book: Book, saleId: number): BuyerRow[] {
  return book.db.select().from(buyer).where(eq(buyer.saleId, saleId)).orderBy(asc(buyer.buyerNo)).all();
}

export interface LastBuyers {
  /** The sale they come from, by name and day. */
  readonly from: string;
  /** How many would get their number again. */
  readonly count: number;
}

/** Who could be registered again, or null where there is nobody. */
export function lastBuyers(book: Book, sale: SaleRow): LastBuyers | null {
  const fromId = sale.stage === 'closed' ? undefined : lastSaleWithBuyers(book, sale);
  const from = fromId === undefined ? undefined : saleById(book, fromId);
  if (!from) return null;
  const decided = decideCarry(buyersOfSale(book, from.id), buyersOfSale(book, sale.id));
  return decided.ok ? { from: `${from.name}, ${from.heldOn}`, count: decided.value.registered.length } : null;
}
