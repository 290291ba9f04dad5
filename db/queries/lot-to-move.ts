import { type LotNo, lotNo as toLotNo } from '#lib/lot-number.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import type { Book } from '../open.ts';
import { lotByNumber, type SaleRow, saleById } from './find.ts';
import type { OpenLot } from './open-lot.ts';
import { openLots } from './open-lots.ts';
import { standingOutcome } from './outcome.ts';
import { outcomeInWords } from './words.ts';

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
