/** A lot that somebody wants to change or to move in the running order, or why it can no longer be done. */
import { decideAmend } from '#lib/decide-lot.ts';
import { type LotNo, lotNo as toLotNo } from '#lib/lot-number.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { type LotRow, lotById, lotByNumber, type SaleRow, saleById } from './find.ts';
import { type OpenLot, openLots } from './open-lots.ts';
import { outcomeInWords, standingOutcome } from './outcome.ts';

/** A lot that may still be changed because it was not called yet. */
export function lotToChange(book: Book, lotId: number): Result<LotRow> {
  const row = lotById(book, lotId);
  if (!row) return refuse('unknown', 'This lot is not in the book: find it again by its number.', 'lotId');
  const standing = standingOutcome(book, lotId);
  const stage = saleById(book, row.saleId)?.stage ?? 'closed';
  const said = standing ? outcomeInWords(book, standing) : null;
  const decided = decideAmend({ lotNo: lotNoOf(row), stage, standing: said });
  return decided.ok ? accept(row) : decided;
}

export interface LotToMove {
  readonly sale: SaleRow;
  readonly lot: OpenLot;
  /** All lots still to be called, in the order in which they come up. */
  readonly open: readonly OpenLot[];
}

/** A lot that is still to be called and may be moved in the running order, with all the others. */
export function lotToMove(book: Book, saleId: number, lotNo: LotNo): Result<LotToMove> {
  const sale = saleById(book, saleId);
  if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
  const open = openLots(book, sale);
  const lot = open.find((one) => one.lotNo === lotNo);
  return lot ? accept({ sale, lot, open }) : refuseToMove(book, saleId, lotNo);
}

function refuseToMove(book: Book, saleId: number, lotNo: string) {
  const row = lotByNumber(book, saleId, toLotNo(lotNo));
  if (!row) return refuse('unknown', `There is no lot ${lotNo}: check the number on the ticket.`, 'lotNo');
  const standing = standingOutcome(book, row.id);
  const what = standing ? outcomeInWords(book, standing) : 'called';
  return refuse(
    'already',
    `Lot ${lotNo} is already ${what}: it does not come up again unless it is reopened.`,
    'lotNo',
  );
}
