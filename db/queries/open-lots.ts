/** The lots of a sale that are still to be called, in the order in which they come up. */
import type { LotNo } from '#lib/lot-number.ts';
import { inRunningOrder, RUNNING_ORDERS, type RunningOrder } from '#lib/running-order.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import type { SaleRow } from './find.ts';
import { keptAlong, newestOutcomeId } from './kept.ts';

export interface OpenLot {
  readonly lotId: number;
  readonly lotNo: LotNo;
  readonly sellerNo: number;
  readonly goodsName: string;
  readonly place: number | null;
}

type Cells = Omit<OpenLot, 'lotNo'> & { readonly lotNumber: number; readonly lotLetter: string };

const OPEN = `
  SELECT lot.id AS lotId, lot.lot_number AS lotNumber, lot.lot_letter AS lotLetter, lot.place,
    seller.seller_no AS sellerNo, goods.name AS goodsName
  FROM lot JOIN seller ON seller.id = lot.seller_id JOIN goods ON goods.id = lot.goods_id
  WHERE lot.sale_id = ? AND (
    NOT EXISTS (SELECT 1 FROM outcome WHERE outcome.lot_id = lot.id)
    OR lot.id IN (
      SELECT lot_id FROM outcome WHERE outcome.kind = 'reopened'
        AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id)))`;

/** As they are at this moment, also within a command. */
export function openLots(book: Book, sale: SaleRow): OpenLot[] {
  const find = book.prepared('open lots', () => book.sqlite.prepare<[number], Cells>(OPEN));
  const lots = find
    .all(sale.id)
    .map(({ lotNumber, lotLetter, ...row }) => ({ ...row, lotNo: lotNoOf({ lotNumber, lotLetter }) }));
  return inRunningOrder(orderOf(sale), lots);
}

interface Waiting {
  readonly lots: readonly OpenLot[];
  readonly upTo: number;
}

/** The same for a screen: kept while the auctioneer goes on, without the lots that were called meanwhile. */
export function openLotsOnScreen(book: Book, sale: SaleRow): readonly OpenLot[] {
  const kept = keptAlong<Waiting>(book, `open lots ${sale.id}`, {
    make: () => ({ lots: openLots(book, sale), upTo: newestOutcomeId(book) }),
    go: ({ lots, upTo }) => {
      const called = calledSince(book, upTo);
      return { lots: lots.filter(({ lotId }) => !called.has(lotId)), upTo: newestOutcomeId(book) };
    },
  });
  return kept.lots;
}

function calledSince(book: Book, upTo: number): Set<number> {
  const find = book.prepared('lots called since', () =>
    book.sqlite.prepare<[number], number>('SELECT lot_id FROM outcome WHERE id > ?').pluck(),
  );
  return new Set(find.all(upTo));
}

/** The order of a sale; a word that an older book may hold counts as the order by lot number. */
export function orderOf({ runningOrder }: Pick<SaleRow, 'runningOrder'>): RunningOrder {
  return RUNNING_ORDERS.find((order) => order === runningOrder) ?? 'lot';
}
