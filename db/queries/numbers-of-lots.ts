/** The lot numbers of a sale, of one seller number, or the first and the last: what a page needs to say what it prints. */
import type { LotNo } from '#lib/lot-number.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { OF_LOTS, type Scope, scopedRows } from './scope.ts';

export interface NumberOfLot {
  readonly lotNo: LotNo;
  readonly sellerNo: number;
}

interface Cells {
  readonly lotNumber: number;
  readonly lotLetter: string;
  readonly sellerNo: number;
}

const CELLS = `
  SELECT lot.lot_number AS lotNumber, lot.lot_letter AS lotLetter, seller.seller_no AS sellerNo
  FROM lot JOIN seller ON seller.id = lot.seller_id`;

const NUMBERS = {
  name: 'numbers of lots',
  by: OF_LOTS,
  text: `${CELLS} WHERE lot.sale_id = :saleId AND {scope} ORDER BY lot.lot_number, lot.lot_letter`,
};

/** In their order. */
export function numbersOfLots(book: Book, saleId: number, scope: Scope): NumberOfLot[] {
  return scopedRows<Cells>(book, NUMBERS, { saleId, scope }).map(numberOf);
}

/** One lot, or none where the sale has no such number. */
export function numberOfLot(
  book: Book,
  saleId: number,
  { number, letter }: { number: number; letter: string },
): NumberOfLot[] {
  const find = book.prepared('number of a lot', () =>
    book.sqlite.prepare<[number, number, string], Cells>(
      `${CELLS} WHERE lot.sale_id = ? AND lot.lot_number = ? AND lot.lot_letter = ?`,
    ),
  );
  return find.all(saleId, number, letter).map(numberOf);
}

/** The first and the last of a sale, and how many there are. */
export function endsOfLots(book: Book, saleId: number): { readonly lots: NumberOfLot[]; readonly many: number } {
  const end = (order: 'ASC' | 'DESC') =>
    book.prepared(`end of lots ${order}`, () =>
      book.sqlite.prepare<[number], Cells>(
        `${CELLS} WHERE lot.sale_id = ? ORDER BY lot.lot_number ${order}, lot.lot_letter ${order} LIMIT 1`,
      ),
    );
  const count = book.prepared('how many lots', () =>
    book.sqlite.prepare<[number], number>('SELECT count(*) FROM lot WHERE sale_id = ?').pluck(),
  );
  const lots = [...end('ASC').all(saleId), ...end('DESC').all(saleId)].map(numberOf);
  return { lots, many: count.get(saleId) ?? 0 };
}

function numberOf({ sellerNo, ...number }: Cells): NumberOfLot {
  return { lotNo: lotNoOf(number), sellerNo };
}
