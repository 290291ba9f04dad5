/**
 * One seller number's lots as the hall may see them while they are being sold: called with the price that was called
 * aloud, or how many come before them. No sum: what somebody earns is for the settlement sheet.
 */
import { newestLine } from '../log.ts';
import type { Book } from '../open.ts';
import { type BoardResult, boardResult } from './board-view.ts';
import { calledLotsOfSeller } from './called-lots.ts';
import type { SaleRow } from './find.ts';
import { openLotsOnScreen } from './open-lots.ts';

export interface SellerBoard {
  readonly line: number;
  readonly saleId: number;
  readonly name: string;
  readonly sellerNo: number;
  readonly results: readonly BoardResult[];
  readonly open: readonly { readonly lotNo: string; readonly goods: string; readonly before: number }[];
}

/** Null where the sale is not being sold: then the results are for the seller alone. */
export function sellerBoard(book: Book, sale: SaleRow, sellerNo: number): SellerBoard | null {
  if (sale.stage !== 'selling') return null;
  const called = calledLotsOfSeller(book, sale.id, sellerNo);
  return {
    ...{ line: newestLine(book), saleId: sale.id, name: sale.name, sellerNo },
    results: called.map(boardResult),
    open: openLotsOnScreen(book, sale).flatMap((lot, before) =>
      lot.sellerNo === sellerNo ? [{ lotNo: lot.lotNo, goods: lot.goodsName, before }] : [],
    ),
  };
}
