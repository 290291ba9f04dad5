import { z } from 'zod';
import { decideOutcome, QUESTIONS } from '#lib/decide-outcome.ts';
import { accept, refuse } from '#lib/result.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { lotNumber, moment, partyNumber, price, rowId } from '../inputs.ts';
import { lotByNumber, saleById } from '../queries/find.ts';
import { newestOutcome } from '../queries/outcome.ts';
import { outcomeAbout } from '../queries/outcome-scene.ts';
import { PLAIN, saveOutcome } from '../save/outcome.ts';

/** When the hammer fell, where that is entered later from paper; left out where it has just fallen. */
export const hammerAt = moment.optional();

/** How a lot came out, as the clerk says it. */
export const outcomeFields = {
  kind: z.enum(['sold', 'passed', 'withdrawn']),
  price: price.nullable().default(null),
  buyerNo: partyNumber.nullable().default(null),
  /** The questions that the clerk has answered with yes. */
  answered: z.array(z.enum(QUESTIONS)).max(QUESTIONS.length).default([]),
} satisfies z.ZodRawShape;

const input = z.strictObject({ saleId: rowId, lotNo: lotNumber, hammerAt, ...outcomeFields });

/** Takes down what the hammer said of a lot: sold at a price to a buyer, passed, or withdrawn before it fell. */
export const outcomeRecord = defineCommand({
  name: 'outcome.record',
  summary: 'Records the first outcome of a lot: sold, passed or withdrawn.',
  logLabel: 'Outcome',
  stations: ['block', 'office'],
  input,
  run(context, { saleId, lotNo, kind, price: priceCents, buyerNo, answered, hammerAt: at = context.at }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const lot = lotByNumber(context.book, saleId, lotNo);
    if (!lot) return refuse('unknown', `There is no lot ${lotNo}: check the number on the ticket.`, 'lotNo');
    if (!fellBefore(context, at)) return NOT_YET;
    const about = outcomeAbout(context.book, { sale, lot, buyerNo, at, now: context.at });
    const decided = decideOutcome(about.scene, { kind, priceCents, buyerNo, answered });
    if (!decided.ok) return decided;
    const outcomeId = saveOutcome(context, lot.id, {
      ...PLAIN,
      at,
      kind,
      priceCents,
      buyerId: about.buyer?.id ?? null,
      remarks: decided.value,
      replacesId: newestOutcome(context.book, lot.id)?.id ?? null,
    });
    return accept({ outcomeId, lotId: lot.id });
  },
});

/** A time on paper is of the past; two clocks that differ by a minute are no mistake of the clerk's. */
function fellBefore({ at }: CommandContext, hammer: string): boolean {
  return Date.parse(hammer) <= Date.parse(at) + 60_000;
}

const NOT_YET = refuse(
  'malformed',
  'The time on the paper has not come yet: check it, or the clock of this machine.',
  'hammerAt',
);
