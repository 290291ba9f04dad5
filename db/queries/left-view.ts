/** The left bids of a sale without their prices: those are seen at the Block only, and only when their lot is up. */
import { standingBids } from '#lib/decide-retract.ts';
import { newestLine } from '../log.ts';
import type { Book } from '../open.ts';
import { bidsOfLot } from './bids.ts';
import type { SaleRow } from './find.ts';
import { lotsWithLeftBids } from './lots-with-left-bids.ts';
import { openLotsOnScreen } from './open-lots.ts';

interface LeftBid {
  readonly bidId: number;
  readonly lotNo: string;
  readonly goodsName: string;
  readonly buyerNo: number;
}

export interface LeftView {
  readonly line: number;
  readonly saleId: number;
  readonly bids: readonly LeftBid[];
}

export function leftView(book: Book, sale: SaleRow): LeftView {
  const numbers = numbersById(book, sale.id);
  const withBids = lotsWithLeftBids(book);
  const open = openLotsOnScreen(book, sale).filter(({ lotId }) => withBids.has(lotId));
  const bids = open.flatMap(({ lotId, lotNo, goodsName }) =>
    standingBids(bidsOfLot(book, lotId))
      .filter(({ kind }) => kind === 'left')
      .map(({ id, buyerId }) => ({ bidId: id, lotNo, goodsName, buyerNo: numbers.get(buyerId) ?? 0 })),
  );
  return { line: newestLine(book), saleId: sale.id, bids };
}

function numbersById(book: Book, saleId: number): Map<number, number> {
  const rows = book.sqlite.prepare('SELECT id, buyer_no AS buyerNo FROM buyer WHERE sale_id = ?').all(saleId);
  return new Map((rows as { id: number; buyerNo: number }[]).map(({ id, buyerNo }) => [id, buyerNo]));
}
