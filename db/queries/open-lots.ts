/** The lots of a sale that are still to be called, in the order in which they come up. */
import { and, eq, isNull, ne, notExists, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import type { LotNo } from '#lib/lot-number.ts';
import { inRunningOrder, RUNNING_ORDERS, type RunningOrder } from '#lib/running-order.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { goods, lot, outcome, seller } from '../schema/index.ts';
import type { SaleRow } from './find.ts';

const given = sql.placeholder;
const later = alias(outcome, 'later');

export interface OpenLot {
  readonly lotId: number;
  readonly lotNo: LotNo;
  readonly sellerNo: number;
  readonly goodsName: string;
  readonly place: number | null;
}

export function openLots(book: Book, sale: SaleRow): OpenLot[] {
  const find = book.prepared('open lots', (db) => {
    const stands = db
      .select({ one: sql`1` })
      .from(outcome)
      .leftJoin(later, eq(later.replacesId, outcome.id))
      .where(and(eq(outcome.lotId, lot.id), isNull(later.id), ne(outcome.kind, 'reopened')));
    const { id: lotId, lotNumber, lotLetter, place } = lot;
    return db
      .select({ lotId, lotNumber, lotLetter, place, sellerNo: seller.sellerNo, goodsName: goods.name })
      .from(lot)
      .innerJoin(seller, eq(seller.id, lot.sellerId))
      .innerJoin(goods, eq(goods.id, lot.goodsId))
      .where(and(eq(lot.saleId, given('saleId')), notExists(stands)))
      .prepare();
  });
  const rows = find.all({ saleId: sale.id });
  const lots = rows.map(({ lotNumber, lotLetter, ...row }) => ({ ...row, lotNo: lotNoOf({ lotNumber, lotLetter }) }));
  return inRunningOrder(orderOf(sale), lots);
}

/** The order of a sale; a word that an older book may hold counts as the order by lot number. */
export function orderOf({ runningOrder }: Pick<SaleRow, 'runningOrder'>): RunningOrder {
  return RUNNING_ORDERS.find((order) => order === runningOrder) ?? 'lot';
}
