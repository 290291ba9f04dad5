/** The lots of a sale that are still to be called, in the order in which they come up. */
import { inRunningOrder } from '#lib/running-order.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import type { SaleRow } from './find.ts';
import { floorOf } from './floor.ts';
import { type OpenLot, orderOf } from './open-lot.ts';

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

/** The same for a screen: kept, and brought up to date by the lots that were touched meanwhile. */
export function openLotsOnScreen(book: Book, sale: SaleRow): readonly OpenLot[] {
  return floorOf(book, sale).open;
}
