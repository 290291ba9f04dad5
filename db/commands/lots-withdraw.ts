import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { rowId, someText } from '../inputs.ts';
import { saleById } from '../queries/find.ts';
import { openLots } from '../queries/open-lots.ts';
import { withdraw } from './lot-withdraw.ts';

const input = z.strictObject({
  saleId: rowId,
  /** How many lots the office saw as still to be called: one that came meanwhile is not withdrawn unseen. */
  seen: z.int().min(1, { error: 'Reload the page: nothing is left to withdraw.' }).max(1_000_000),
  reason: someText,
});

/** Takes every lot that was never called out of the sale, all of them or none; each keeps its number and goes home. */
export const lotsWithdraw = defineCommand({
  name: 'lots.withdraw',
  summary: 'Withdraws every lot of a sale that is still to be called, all of them or none, with the reason.',
  logLabel: 'All that was left withdrawn',
  stations: ['office'],
  input,
  run(context, { saleId, seen, reason }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const left = openLots(context.book, sale);
    if (left.length !== seen) {
      const now = left.length === 1 ? '1 lot is' : `${left.length} lots are`;
      return refuse(
        'conflict',
        `By now ${now} still to be called, not ${seen}: look at them and withdraw again.`,
        'seen',
      );
    }
    for (const { lotId } of left) {
      const withdrawn = withdraw(context, lotId, reason);
      if (!withdrawn.ok) return { ...withdrawn, field: 'seen' };
    }
    return accept({ lots: left.map(({ lotNo }) => lotNo) });
  },
});
