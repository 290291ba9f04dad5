import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { decideClose } from '#lib/closing/decide-close.ts';
import { closingLines } from '#lib/closing/lines.ts';
import { closingReport } from '#lib/closing/report.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { decideEndBidding, decideStage, STAGES } from '#lib/stage.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { rowId, text } from '../inputs.ts';
import { namesOfBuyers } from '../queries/balance-view.ts';
import { closingFacts } from '../queries/closing-facts.ts';
import { type SaleRow, saleById } from '../queries/find.ts';
import { dayIn } from '../queries/local-days.ts';
import { openLots } from '../queries/open-lots.ts';
import { paperGround } from '../queries/paper-lots.ts';
import { namesOfSellers } from '../queries/sheets.ts';
import { saveClosed, saveReopened } from '../save/sale.ts';
import { sale } from '../schema/index.ts';

const input = z.strictObject({
  saleId: rowId,
  stage: z.enum(STAGES),
  reason: text,
  /** How many lots have not been called, as the person typed it to end the bidding without them. */
  left: z
    .int({ error: 'Type how many lots have not been called.' })
    .min(0, { error: 'Type how many lots have not been called.' })
    .max(1_000_000, { error: 'Type how many lots have not been called.' })
    .nullable()
    .default(null),
});

/** Takes the sale to its next stage, or back one with a reason. It closes only when its balance is at zero. */
export const saleStage = defineCommand({
  name: 'sale.stage',
  summary: 'Moves a sale to its next stage, or back one with a reason; it closes only when its balance is at zero.',
  logLabel: 'Sale taken to',
  stations: ['office'],
  input,
  run(context, { saleId, stage, reason, left }) {
    const found = saleById(context.book, saleId);
    if (!found) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const decided = decideStage(found.stage, stage, reason);
    if (!decided.ok) return decided;
    const ends = found.stage === 'selling' && stage === 'settling';
    const ended = ends ? decideEndBidding(openLots(context.book, found).length, left) : accept(null);
    if (!ended.ok) return ended;
    const closed = stage === 'closed' ? close(context, found) : accept(null);
    if (!closed.ok) return closed;
    if (found.stage === 'closed') saveReopened(context, saleId, reason);
    context.book.db.update(sale).set({ stage, line: context.line }).where(eq(sale.id, saleId)).run();
    return accept({ saleId, stage });
  },
});

/** Keeps the closing report as it is now; refused while a line of the balance is open. */
function close(context: CommandContext, row: SaleRow): Result<null> {
  const { book, at, worker } = context;
  const closing = closingFacts(book, row.id);
  const lines = closingLines(closing);
  const decided = decideClose(lines, closing.drawerOpen);
  if (!decided.ok) return decided;
  const names = { sellerNames: namesOfSellers(book, row.id), buyerNames: namesOfBuyers(book, row.id) };
  const ground = paperGround(book, row, dayIn(book, at));
  saveClosed(context, row.id, closingReport({ ground, closing, lines, ...names, closedBy: worker }));
  return accept(null);
}
