/** A lot that is still to be called, and the order of a sale in which such lots come up. */
import type { LotNo } from '#lib/lot-number.ts';
import { RUNNING_ORDERS, type RunningOrder } from '#lib/running-order.ts';
import { lotNoOf } from '../lot-no.ts';
import type { SaleRow } from './find.ts';

export interface OpenLot {
  readonly lotId: number;
  readonly lotNo: LotNo;
  readonly sellerNo: number;
  readonly goodsName: string;
  readonly place: number | null;
}

export type OpenLotCells = Omit<OpenLot, 'lotNo'> & { readonly lotNumber: number; readonly lotLetter: string };

/** What is selected of `lot`, `seller` and `goods` for it. */
export const OPEN_LOT = `
  lot.id AS lotId, lot.lot_number AS lotNumber, lot.lot_letter AS lotLetter, lot.place,
  seller.seller_no AS sellerNo, goods.name AS goodsName`;

export function openLot({ lotNumber, lotLetter, ...row }: OpenLotCells): OpenLot {
  return { ...row, lotNo: lotNoOf({ lotNumber, lotLetter }) };
}

/** The order of a sale; a word that an older book may hold counts as the order by lot number. */
export function orderOf({ runningOrder }: Pick<SaleRow, 'runningOrder'>): RunningOrder {
  return RUNNING_ORDERS.find((order) => order === runningOrder) ?? 'lot';
}
