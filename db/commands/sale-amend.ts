import { z } from 'zod';
import { decideFixed, decideTermsOpen } from '#lib/decide-amend-sale.ts';
import type { Sale } from '#lib/facts.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { rowId, text } from '../inputs.ts';
import type { Book } from '../open.ts';
import { goodsByCode, type SaleRow, saleById } from '../queries/find.ts';
import { isPlanned, saleSoFar } from '../queries/sale-so-far.ts';
import { saleInput, saleOf } from '../sale-input.ts';
import { amendSale } from '../save/sale.ts';

const input = z.strictObject({ saleId: rowId, sale: saleInput, reason: text });

/** Changes what was said of a sale and its terms, until the first sheet or invoice is out. */
export const saleAmend = defineCommand({
  name: 'sale.amend',
  summary: 'Changes a sale and its terms, until its first settlement sheet or invoice is issued.',
  logLabel: 'Sale amended',
  stations: ['office'],
  input,
  run(context, { saleId, sale: said, reason }) {
    const row = saleById(context.book, saleId);
    if (!row) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const facts = saleOf(said);
    const soFar = saleSoFar(context.book, row);
    const open = decideTermsOpen(soFar, reason);
    if (!open.ok) return open;
    const fixed = decideFixed(row, facts, soFar);
    if (!fixed.ok) return fixed;
    const fits = decideFits(context.book, row, facts);
    if (!fits.ok) return fits;
    amendSale(context, saleId, facts);
    return accept({ saleId });
  },
});

/** What else in the book the new words must agree with. */
function decideFits(book: Book, row: SaleRow, { name, heldOn, terms }: Sale): Result<null> {
  if (isPlanned(book, { name, heldOn }, row.id)) {
    return refuse('taken', `Another sale is called ${name} on ${heldOn}: choose another name or day.`, 'sale.name');
  }
  if (row.duesUntil !== null && row.duesUntil < heldOn) {
    const message = `Dues taken here are paid to ${row.duesUntil}, before that day: set a later day for them first.`;
    return refuse('malformed', message, 'sale.held_on');
  }
  const stray = Object.keys(terms.commissionOverrides).find((code) => !goodsByCode(book, row.id, code));
  if (stray === undefined) return accept(null);
  return refuse('unknown', `The commission names ${stray}, which is not among the goods: add it there.`, 'sale.terms');
}
