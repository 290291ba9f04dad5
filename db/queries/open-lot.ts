/** A lot that is still to be called, and the order of a sale in which such lots come up. */
import type { LotNo } from '#lib/lot-number.ts';
import { RUNNING_ORDERS, type RunningOrder } from '#lib/running-order.ts';
import type { SaleRow } from './find.ts';

export interface OpenLot {
  readonly lotId: number;
  readonly lotNo: LotNo;
  readonly sellerNo: number;
  readonly goodsName: string;
  readonly place: number | null;
}

/** The order of a sale; a word that an older book may hold counts as the order by lot number. */
export function orderOf({ runningOrder }: Pick<SaleRow, 'runningOrder'>): RunningOrder {
  return RUNNING_ORDERS.find((order) => order === runningOrder) ?? 'lot';
}
