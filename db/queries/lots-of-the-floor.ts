/** The lots of a sale that are still to be called, read by their rows: a range of those never called, or one of any. */
import type { Book } from '../open.ts';
import { OPEN_LOT, type OpenLot, type OpenLotCells, openLot } from './open-lot.ts';
import type { Range } from './scope.ts';

// The plus keeps SQLite from going through all lots of the sale for a few of them.
const LOTS = `
  SELECT ${OPEN_LOT}
  FROM lot CROSS JOIN seller ON seller.id = lot.seller_id CROSS JOIN goods ON goods.id = lot.goods_id
  WHERE lot.id BETWEEN :from AND :to AND +lot.sale_id = :saleId`;
const NEVER_CALLED = `${LOTS} AND NOT EXISTS (SELECT 1 FROM outcome WHERE outcome.lot_id = lot.id)`;
const NEWEST_KIND = `
  SELECT kind FROM outcome WHERE lot_id = ? AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id)`;

/** Those of a range of row ids that were never called. */
export function openLotsBetween(book: Book, saleId: number, range: Range): OpenLot[] {
  const find = book.prepared('lots never called', () => book.sqlite.prepare<[object], OpenLotCells>(NEVER_CALLED));
  return find.all({ saleId, ...range }).map(openLot);
}

interface Asked {
  readonly saleId: number;
  readonly lotId: number;
}

/** One lot with whether it has an outcome, which was taken back; undefined where it is not to be called in this sale. */
export function openOfLot(
  book: Book,
  { saleId, lotId }: Asked,
): { readonly lot: OpenLot; readonly wasCalled: boolean } | undefined {
  const newest = book.prepared('newest kind of outcome', () =>
    book.sqlite.prepare<[number], string>(NEWEST_KIND).pluck(),
  );
  const kind = newest.get(lotId);
  if (kind !== undefined && kind !== 'reopened') return undefined;
  const find = book.prepared('lot of the floor', () => book.sqlite.prepare<[object], OpenLotCells>(LOTS));
  const cells = find.get({ saleId, from: lotId, to: lotId });
  return cells && { lot: openLot(cells), wasCalled: kind !== undefined };
}

/** Lots whose newest outcome says that they are to be called again, of all sales. */
export function lotsReopened(book: Book): number[] {
  const find = book.prepared('lots reopened', () => book.sqlite.prepare<[], number>(REOPENED).pluck());
  return find.all();
}

const REOPENED = `
  SELECT lot_id FROM outcome WHERE outcome.kind = 'reopened' AND outcome.id > 0
    AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id)`;
