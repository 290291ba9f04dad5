/** The lots of a sale that are still to be called, in the order in which they come up. */
import { inRunningOrder } from '#lib/running-order.ts';
import type { Book } from '../open.ts';
import type { SaleRow } from './find.ts';
import { floorOf } from './floor.ts';
import { OPEN_LOT, type OpenLot, type OpenLotCells, openLot, orderOf } from './open-lot.ts';

const OPEN = `
  SELECT ${OPEN_LOT} FROM lot JOIN seller ON seller.id = lot.seller_id JOIN goods ON goods.id = lot.goods_id
  WHERE lot.sale_id = ? AND (
    NOT EXISTS (SELECT 1 FROM outcome WHERE outcome.lot_id = lot.id)
    OR lot.id IN (
      SELECT lot_id FROM outcome WHERE outcome.kind = 'reopened'
        AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id)))`;

/** As they are at this moment, also within a command. */
export function openLots(book: Book, sale: SaleRow): OpenLot[] {
  const find = book.prepared('open lots', () => book.sqlite.prepare<[number], OpenLotCells>(OPEN));
  return inRunningOrder(orderOf(sale), find.all(sale.id).map(openLot));
}

/** The same for a screen: kept, and brought up to date by the lots that were touched meanwhile. */
export function openLotsOnScreen(book: Book, sale: SaleRow): readonly OpenLot[] {
  return floorOf(book, sale).open;
}
