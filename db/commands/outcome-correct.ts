import { z } from 'zod';
import { decideCorrection } from '#lib/decide-outcome.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { rowId, someText } from '../inputs.ts';
import { lotById, saleById } from '../queries/find.ts';
import { outcomeAbout } from '../queries/outcome-scene.ts';
import { replacedFields, replacedId } from '../queries/replaced.ts';
import { PLAIN, saveOutcome } from '../save/outcome.ts';
import { outcomeFields } from './outcome-record.ts';

const input = z.strictObject({
  lotId: rowId,
  /** The outcome that was seen, so that two corrections at once do not overtake each other. */
  ...replacedFields,
  reason: someText,
  ...outcomeFields,
});

/** Replaces the outcome that stands by a further one, with the reason; both are kept. */
export const outcomeCorrect = defineCommand({
  name: 'outcome.correct',
  summary: 'Replaces the outcome of a lot by a further one, with a reason.',
  logLabel: 'Outcome corrected',
  stations: ['block', 'office'],
  input,
  run(context, { lotId, reason, replacesId: seenId, replacesKey, kind, price: priceCents, buyerNo, answered }) {
    const lot = lotById(context.book, lotId);
    const sale = lot && saleById(context.book, lot.saleId);
    if (!lot || !sale) return refuse('unknown', 'This lot is not in the book: find it again by its number.', 'lotId');
    const about = outcomeAbout(context.book, { sale, lot, buyerNo, now: context.at });
    const decided = decideCorrection(about.scene, { kind, priceCents, buyerNo, answered });
    if (!decided.ok) return decided;
    const replacesId = replacedId(context.book, { lotId, replacesId: seenId, replacesKey });
    if (replacesId === undefined || about.standing?.id !== replacesId) {
      return refuse(
        'conflict',
        `Meanwhile lot ${about.scene.lotNo} is ${about.scene.standing}: look at it again.`,
        'lotId',
      );
    }
    const buyerId = about.buyer?.id ?? null;
    const fields = { ...PLAIN, kind, priceCents, buyerId, remarks: decided.value, replacesId, reason };
    return accept({ outcomeId: saveOutcome(context, lotId, fields), lotId });
  },
});
