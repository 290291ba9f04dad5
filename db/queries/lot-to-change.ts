import { decideAmend } from '#lib/decide-lot.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { type LotRow, lotById, saleById } from './find.ts';
import { standingOutcome } from './outcome.ts';
import { outcomeInWords } from './words.ts';

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
