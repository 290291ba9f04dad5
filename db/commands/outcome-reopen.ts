import { z } from 'zod';
import { decideReopen } from '#lib/decide-reopen.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { rowId, someText } from '../inputs.ts';
import { lotById, saleById } from '../queries/find.ts';
import { outcomeAbout } from '../queries/outcome-scene.ts';
import { replacedFields, replacedId } from '../queries/replaced.ts';
import { PLAIN, saveOutcome } from '../save/outcome.ts';

const input = z.strictObject({
  lotId: rowId,
  /** The outcome that was seen, so that two corrections at once do not overtake each other. */
  ...replacedFields,
  reason: someText,
});

/** Opens the bidding on a lot again: the outcome that stood is kept, with the reason, and the lot waits to be called. */
export const outcomeReopen = defineCommand({
  name: 'outcome.reopen',
  summary: 'Opens the bidding on a called lot again while the sale runs, with a reason.',
  logLabel: 'Outcome taken back',
  stations: ['block', 'office'],
  input,
  run(context, { lotId, reason, replacesId: seenId, replacesKey }) {
    const lot = lotById(context.book, lotId);
    const sale = lot && saleById(context.book, lot.saleId);
    if (!lot || !sale) return refuse('unknown', 'This lot is not in the book: find it again by its number.', 'lotId');
    const about = outcomeAbout(context.book, { sale, lot, buyerNo: null });
    const decided = decideReopen(about.scene);
    if (!decided.ok) return decided;
    const replacesId = replacedId(context.book, { lotId, replacesId: seenId, replacesKey });
    if (replacesId === undefined || about.standing?.id !== replacesId) {
      const { lotNo, standing } = about.scene;
      return refuse('conflict', `Meanwhile lot ${lotNo} is ${standing}: look at it again.`, 'lotId');
    }
    const fields = { ...PLAIN, kind: 'reopened', priceCents: null, buyerId: null, replacesId, reason } as const;
    return accept({ outcomeId: saveOutcome(context, lotId, fields), lotId });
  },
});
