import type { LotNo } from '#lib/lot-number.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';

interface Cells {
  readonly lotNumber: number;
  readonly lotLetter: string;
  readonly sellerNo: number;
}

/** Every lot number of a sale in its order, and whose it is: all that a page needs which prints them. */
export function numbersOfLots(book: Book, saleId: number): { readonly lotNo: LotNo; readonly sellerNo: number }[] {
  const find = book.prepared('numbers of lots', () => book.sqlite.prepare<[number], Cells>(NUMBERS));
  return find.all(saleId).map((cells) => ({ lotNo: lotNoOf(cells), sellerNo: cells.sellerNo }));
}

const NUMBERS = `
  SELECT lot.lot_number AS lotNumber, lot.lot_letter AS lotLetter, seller.seller_no AS sellerNo
  FROM lot JOIN seller ON seller.id = lot.seller_id
  WHERE lot.sale_id = ? ORDER BY lot.lot_number, lot.lot_letter`;
