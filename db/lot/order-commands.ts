import * as z from 'zod';
import { type CommandContext, defineCommand, defineSaleCommand } from '#db/book/command.ts';
import { lotNoOf } from '#db/book/find.ts';
import { flag, lotNumber, rowId, someReason } from '#db/book/inputs.ts';
import { updateRow } from '#db/book/rows.ts';
import { bidsOfLot } from '#db/outcome/bids.ts';
import { PLAIN, saveOutcome } from '#db/outcome/commands.ts';
import { newestOutcomeOf } from '#db/outcome/queries.ts';
import { sale as saleTable } from '#db/schema/index.ts';
import { decideWithdraw } from '#lib/lot/decide-lot.ts';
import type { LotNo } from '#lib/lot/number.ts';
import { placeBehind, placeInFront, placesWithMoved } from '#lib/lot/running-order.ts';
import { standingBids } from '#lib/outcome/bid.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { type LotToMove, lotToChange, lotToMove, openLots } from './open-lots.ts';
import { savePlace } from './save.ts';

export const lotPlace = defineCommand({
  name: 'lot.place',
  summary: 'Puts up a lot by its number, or moves it before another one in the running order.',
  logLabel: 'Place in the order changed',
  stations: ['block', 'office'],
  input: z.strictObject({
    saleId: rowId,
    lotNo: lotNumber,
    /** The lot before which it shall come; null puts it up now. */
    before: lotNumber.nullable().default(null),
  }),
  run(context, { saleId, lotNo, before }) {
    const found = lotToMove(context.book, saleId, lotNo);
    if (!found.ok) return found;
    const { lot, open } = found.value;
    if (before !== null && before !== lotNo) return moveBefore(context, found.value, before);
    if (open[0] !== lot) savePlace(context, lot.lotId, placeInFront(open));
    return accept({ lotId: lot.lotId });
  },
});

function moveBefore(context: CommandContext, { sale, lot, open }: LotToMove, before: LotNo): Result<{ lotId: number }> {
  const target = lotToMove(context.book, sale.id, before);
  if (!target.ok) return { ...target, field: 'before' };
  const other = open.find(({ lotNo }) => lotNo === before) ?? lot;
  for (const [{ lotId }, place] of placesWithMoved(open, lot, other)) savePlace(context, lotId, place);
  updateRow(context, saleTable, sale.id, { runningOrder: 'hand' });
  return accept({ lotId: lot.lotId });
}

export const lotSkip = defineCommand({
  name: 'lot.skip',
  summary: 'Sends a lot, or all lots of its seller, to the end of the running order.',
  logLabel: 'Put behind the others',
  stations: ['block', 'office'],
  input: z.strictObject({
    saleId: rowId,
    lotNo: lotNumber,
    /** True where the seller is not ready, so that all of the seller's lots go to the end in their order. */
    wholeSeller: flag.default(false),
  }),
  run(context, { saleId, lotNo, wholeSeller }) {
    const found = lotToMove(context.book, saleId, lotNo);
    if (!found.ok) return found;
    const { lot, open } = found.value;
    const end = placeBehind(open);
    const skipped = wholeSeller ? open.filter(({ sellerNo }) => sellerNo === lot.sellerNo) : [lot];
    for (const [at, { lotId }] of skipped.entries()) savePlace(context, lotId, end + at);
    return accept({ lotId: lot.lotId, lots: skipped.length });
  },
});

/** Takes a lot out of the sale before it is called; it keeps its number and is not called. */
export const lotWithdraw = defineCommand({
  name: 'lot.withdraw',
  summary: 'Withdraws a lot before it is called, with the reason.',
  logLabel: 'Withdrawn by its seller',
  stations: ['intake', 'office'],
  input: z.strictObject({ lotId: rowId, reason: someReason }),
  run: (context, { lotId, reason }) => withdraw(context, lotId, reason),
});

/** The same of any lot that is still to be called, for the commands that withdraw. */
function withdraw(
  context: CommandContext,
  lotId: number,
  reason: string,
): Result<{ lotId: number; outcomeId: number }> {
  const row = lotToChange(context.book, lotId);
  if (!row.ok) return row;
  const bids = standingBids(bidsOfLot(context.book, lotId)).length;
  const decided = decideWithdraw({ ...row.value, lotNo: lotNoOf(row.value), bids });
  if (!decided.ok) return decided;
  const replacesId = newestOutcomeOf(context.book, lotId)?.id ?? null;
  const fields = { ...PLAIN, kind: 'withdrawn', priceCents: null, buyerId: null, replacesId, reason } as const;
  return accept({ lotId, outcomeId: saveOutcome(context, lotId, fields) });
}

/** Takes every lot that was never called out of the sale, all of them or none; each keeps its number and goes home. */
export const lotsWithdraw = defineSaleCommand({
  name: 'lots.withdraw',
  summary: 'Withdraws every lot of a sale that is still to be called, all of them or none, with the reason.',
  logLabel: 'All that was left withdrawn',
  stations: ['office'],
  input: z.strictObject({
    saleId: rowId,
    /** How many lots the office saw as still to be called: one that came meanwhile is not withdrawn unseen. */
    seen: z.int().min(1, { error: 'Reload the page: nothing is left to withdraw.' }).max(1_000_000),
    reason: someReason,
  }),
  run({ sale, ...context }, { seen, reason }) {
    const left = openLots(context.book, sale);
    if (left.length !== seen) {
      const now = left.length === 1 ? '1 lot is' : `${left.length} lots are`;
      const message = `By now ${now} still to be called, not ${seen}: look at them and withdraw again.`;
      return refuse('conflict', message, 'seen');
    }
    for (const { lotId } of left) {
      const withdrawn = withdraw(context, lotId, reason);
      if (!withdrawn.ok) return { ...withdrawn, field: 'seen' };
    }
    return accept({ lots: left.map(({ lotNo }) => lotNo) });
  },
});
