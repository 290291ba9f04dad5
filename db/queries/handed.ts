/** Which lots have passed to their buyers. */
import type { LotNo } from '#lib/lot-number.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { lotByNumber } from './find.ts';
import { OF_LOTS, type Scope, scopedRows } from './scope.ts';

/** The newest row of a lot's handing over. */
export interface HandoverRow {
  readonly handoverId: number;
  readonly lotNo: LotNo;
  readonly buyerNo: number;
  readonly kind: 'handed' | 'returned';
  readonly takenBy: string;
  readonly reason: string;
  readonly at: string;
  /** Who gave it out. */
  readonly worker: string;
}

const CELLS = `
  SELECT lot.lot_number AS lotNumber, lot.lot_letter AS lotLetter, handover.id AS handoverId, buyer.buyer_no AS buyerNo,
    handover.kind, handover.taken_by AS takenBy, handover.reason, handover.at, coalesce(log.worker, '') AS worker`;
const IS_NEWEST = 'NOT EXISTS (SELECT 1 FROM handover later WHERE later.replaces_id = handover.id)';
const ROWS = `${CELLS}
  FROM lot JOIN handover ON handover.lot_id = lot.id JOIN seller ON seller.id = lot.seller_id
  JOIN buyer ON buyer.id = handover.buyer_id LEFT JOIN log ON log.seq = handover.line
  WHERE ${IS_NEWEST}`;

/** From the buyers on, not from the lots: most of a large sale still lies on the tables when the till opens. */
const OF_SALE = `${CELLS}
  FROM buyer CROSS JOIN handover ON handover.buyer_id = buyer.id CROSS JOIN lot ON lot.id = handover.lot_id
  LEFT JOIN log ON log.seq = handover.line
  WHERE buyer.sale_id = ? AND ${IS_NEWEST} ORDER BY lot.lot_number, lot.lot_letter`;

const NEWEST = {
  name: 'newest handovers',
  by: OF_LOTS,
  text: `${ROWS} AND lot.sale_id = :saleId AND {scope} ORDER BY lot.lot_number, lot.lot_letter`,
};

interface Cells extends Omit<HandoverRow, 'lotNo'> {
  readonly lotNumber: number;
  readonly lotLetter: string;
}

/** The newest row of each lot of a sale that was ever handed over, by lot number; of the lots in `scope` alone. */
export function newestHandovers(book: Book, saleId: number, scope: Scope = null): Map<LotNo, HandoverRow> {
  const rows = scope === null ? handedInSale(book, saleId) : scopedRows<Cells>(book, NEWEST, { saleId, scope });
  return new Map(rows.map((cells) => [lotNoOf(cells), rowOf(cells)]));
}

function handedInSale(book: Book, saleId: number): Cells[] {
  const find = book.prepared('newest handovers of a sale', () => book.sqlite.prepare<[number], Cells>(OF_SALE));
  return find.all(saleId);
}

/** The newest row of one lot, to whomever it went; undefined where it never left the house. */
export function newestHandover(book: Book, lotId: number): HandoverRow | undefined {
  const find = book.prepared('newest handover', () => book.sqlite.prepare<[number], Cells>(`${ROWS} AND lot.id = ?`));
  const cells = find.get(lotId);
  return cells && rowOf(cells);
}

/** The newest rows of the lots that a buyer number bought, and of those that were ticked for it. */
export function handoversAbout(
  book: Book,
  saleId: number,
  { buyerNo, lots }: { readonly buyerNo: number; readonly lots: readonly LotNo[] },
): Map<LotNo, HandoverRow> {
  const found = newestHandovers(book, saleId, { buyerNo });
  for (const lotNo of lots) {
    const lot = found.has(lotNo) ? undefined : lotByNumber(book, saleId, lotNo);
    const newest = lot && newestHandover(book, lot.id);
    if (newest) found.set(lotNo, newest);
  }
  return found;
}

function rowOf({ lotNumber, lotLetter, ...row }: Cells): HandoverRow {
  return { ...row, lotNo: lotNoOf({ lotNumber, lotLetter }) };
}

/** Whether one lot is out of the house: its newest row says that it was handed over. */
export function isHanded(book: Book, lotId: number): boolean {
  return newestHandover(book, lotId)?.kind === 'handed';
}
