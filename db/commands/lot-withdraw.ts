import { z } from 'zod';
import { standingBids } from '#lib/decide-retract.ts';
import { decideWithdraw } from '#lib/decide-withdraw.ts';
import { accept, type Result } from '#lib/result.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { rowId, someText } from '../inputs.ts';
import { lotNoOf } from '../lot-no.ts';
import { bidsOfLot } from '../queries/bids.ts';
import { lotToChange } from '../queries/lot-to-change.ts';
import { newestOutcome } from '../queries/outcome.ts';
import { PLAIN, saveOutcome } from '../save/outcome.ts';

const input = z.strictObject({ lotId: rowId, reason: someText });

/** Takes a lot out of the sale before it is called; it keeps its number and is not called. */
export const lotWithdraw = defineCommand({
  name: 'lot.withdraw',
  summary: 'Withdraws a lot before it is called, with the reason.',
  logLabel: 'Withdrawn by its seller',
  stations: ['intake', 'office'],
  input,
  run: (context, { lotId, reason }) => withdraw(context, lotId, reason),
});

/** The same of any lot that is still to be called, for the commands that withdraw. */
export function withdraw(
  context: CommandContext,
  lotId: number,
  reason: string,
): Result<{ lotId: number; outcomeId: number }> {
  const row = lotToChange(context.book, lotId);
  if (!row.ok) return row;
  const bids = standingBids(bidsOfLot(context.book, lotId)).length;
  const decided = decideWithdraw({ ...row.value, lotNo: lotNoOf(row.value), bids });
  if (!decided.ok) return decided;
  const replacesId = newestOutcome(context.book, lotId)?.id ?? null;
  const fields = { ...PLAIN, kind: 'withdrawn', priceCents: null, buyerId: null, replacesId, reason } as const;
  return accept({ lotId, outcomeId: saveOutcome(context, lotId, fields) });
}
