import type { LotNo } from '#lib/lot-number.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { OF_LOTS, type Scope, scopedRows } from './scope.ts';

const TAKEN_IN = {
  name: 'where lots were taken',
  by: OF_LOTS,
  text: `
    SELECT lot.lot_number AS lotNumber, lot.lot_letter AS lotLetter, lot.taken_in AS takenIn
    FROM lot JOIN seller ON seller.id = lot.seller_id WHERE lot.sale_id = :saleId AND {scope}`,
};

interface TakenIn {
  readonly lotNumber: number;
  readonly lotLetter: string;
  readonly takenIn: string;
}

/** Where each lot of a scope was taken, as it was said at Intake; empty where nothing was said. */
export function takenInOf(book: Book, saleId: number, scope: Scope): Map<LotNo, string> {
  const rows = scopedRows<TakenIn>(book, TAKEN_IN, { saleId, scope });
  return new Map(rows.map((row) => [lotNoOf(row), row.takenIn]));
}
