import * as z from 'zod';
import { type CommandContext, defineCommand, defineSaleCommand } from '#db/book/command.ts';
import { lotById, lotByNumber, saleById } from '#db/book/find.ts';
import { lotNumber, moment, partyNumber, price, readBy, rowId, someReason } from '#db/book/inputs.ts';
import { addRow, type NewRow } from '#db/book/rows.ts';
import { noLot } from '#db/lot/former.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { outcome } from '#db/schema/index.ts';
import { localDay, startOfDay } from '#lib/date/date.ts';
import { parseLotList } from '#lib/lot/number.ts';
import type { Cents } from '#lib/money/money.ts';
import {
  decideCorrection,
  decideOutcome,
  decideReopen,
  type OutcomeQuestion,
  type ProposedOutcome,
  QUESTIONS,
} from '#lib/outcome/decide-outcome.ts';
import { decideLeft, UNDER_BID } from '#lib/outcome/left.ts';
import { decidePaperTime } from '#lib/outcome/paper-time.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { Fate } from '#lib/sale/facts.ts';
import { leftContext, underBidOf } from './bids.ts';
import { type LotUnderHammer, type OutcomeAbout, outcomeAbout } from './context.ts';
import { newestOutcomeOf, replacedFields, replacedId, type Seen } from './queries.ts';
import { soldByBids, withLimitOf } from './written.ts';

/** The time of the hammer is that of the entry where nothing else is said. */
type OutcomeFields = Omit<NewRow<typeof outcome>, 'lotId' | 'at' | 'remarks' | 'fate'> & {
  readonly fate?: Fate;
  readonly at?: string;
  readonly remarks: readonly string[];
};

export function saveOutcome(context: CommandContext, lotId: number, fields: OutcomeFields): number {
  return addRow(context, outcome, { lotId, at: context.at, ...fields, remarks: [...fields.remarks] });
}

/** What a first outcome has where a clerk said nothing more. */
export const PLAIN = { remarks: [], awarded: false, replacesId: null, reason: '' } as const;

/** When the hammer fell, where that is entered later from paper; left out where it has just fallen. */
const hammerAt = moment.optional();

/** How a lot came out, as the clerk says it. */
const outcomeFields = {
  kind: z.enum(['sold', 'passed', 'withdrawn', 'bought_back']),
  price: price.nullable().default(null),
  buyerNo: partyNumber.nullable().default(null),
  /** The questions that the clerk has answered with yes. */
  answered: z.array(z.enum(QUESTIONS)).max(QUESTIONS.length).default([]),
} satisfies z.ZodRawShape;

/** Takes down what the hammer said of a lot: sold to a buyer, bought back by its seller, passed, or withdrawn before it fell. */
export const outcomeRecord = defineSaleCommand({
  name: 'outcome.record',
  summary: 'Records the first outcome of a lot: sold, bought back by its seller, passed or withdrawn.',
  logLabel: 'Outcome',
  stations: ['block', 'office'],
  input: z.strictObject({ saleId: rowId, lotNo: lotNumber, hammerAt, ...outcomeFields }),
  run({ sale, ...context }, { saleId, lotNo, kind, price: priceCents, buyerNo, answered, hammerAt: at = context.at }) {
    const lot = lotByNumber(context.book, saleId, lotNo);
    if (!lot) return noLot(context.book, saleId, lotNo);
    if (!fellBefore(context, at)) return NOT_YET;
    const within = decidePaperTime(paperContext(context, sale.heldOn), at);
    if (!within.ok) return within;
    const about = outcomeAbout(context.book, { sale, lot, buyerNo, at, now: context.at });
    const said = { kind, priceCents, buyerNo, answered };
    const decided = withBids(context, about, said, decideOutcome(sceneAt(context, about, priceCents), said));
    if (!decided.ok) return decided;
    const byBids = kind === 'sold' ? soldByBids(context.book, sale, lot, said) : accept(null);
    if (!byBids.ok) return byBids;
    const outcomeId = saveOutcome(context, lot.id, {
      ...PLAIN,
      at,
      kind,
      priceCents,
      buyerId: about.buyer?.id ?? null,
      remarks: decided.value,
      replacesId: newestOutcomeOf(context.book, lot.id)?.id ?? null,
    });
    return accept({ outcomeId, lotId: lot.id });
  },
});

/**
 * What the bids on the lot have to say of an outcome that is right otherwise: a left bid that it passes over is asked
 * about, and an under-bid that is taken up stands among the remarks. Every lot that is withdrawn is out of reach of both.
 */
function withBids(
  { book }: CommandContext,
  { sale, lot, buyer }: OutcomeAbout,
  { kind, priceCents, buyerNo, answered }: ProposedOutcome,
  decided: Result<readonly OutcomeQuestion[]>,
): Result<readonly string[]> {
  if (!decided.ok || kind === 'withdrawn') return decided;
  const left = decideLeft(leftContext(book, sale, lot), { priceCents, buyerNo }, answered);
  if (!left.ok) return left;
  const under = newestOutcomeOf(book, lot.id) && underBidOf(book, lot.id);
  const taken = kind === 'sold' && under?.buyerId === buyer?.id && under?.priceCents === priceCents;
  return accept([...decided.value, ...left.value, ...(taken ? [UNDER_BID] : [])]);
}

/** At a sale of written bids the buyer's limit is asked about too: the buyer is not there to be looked at. */
function sceneAt({ book }: CommandContext, about: OutcomeAbout, priceCents: Cents | null) {
  return priceCents === null ? about.scene : withLimitOf(book, about.sale, about, priceCents);
}

/** From when lots can have been called: the day of the sale or, where that is still to come, today. */
function paperContext({ book, at: now }: CommandContext, heldOn: string) {
  const timeZone = timeZoneOf(book);
  const today = localDay(now, timeZone);
  return { now, since: startOfDay(heldOn < today ? heldOn : today, timeZone), timeZone };
}

/** A time on paper is of the past; two clocks that differ by a minute are no mistake of the clerk's. */
function fellBefore({ at }: CommandContext, hammer: string): boolean {
  return Date.parse(hammer) <= Date.parse(at) + 60_000;
}

const NOT_YET = refuse(
  'malformed',
  'The time on the paper has not come yet: check it, or the clock of this machine.',
  'hammerAt',
);

/** What the book knows of a lot whose outcome is put right. */
function aboutLot(
  { book }: CommandContext,
  lotId: number,
  said: Pick<LotUnderHammer, 'buyerNo' | 'now'>,
): Result<OutcomeAbout> {
  const lot = lotById(book, lotId);
  const sale = lot && saleById(book, lot.saleId);
  if (!lot || !sale) return refuse('unknown', 'This lot is not in the book: find it again by its number.', 'lotId');
  return accept(outcomeAbout(book, { sale, lot, ...said }));
}

/** The outcome to be replaced: only the one that was seen, and while it stands. */
function decideReplaced({ book }: CommandContext, { lot, standing, scene }: OutcomeAbout, seen: Seen): Result<number> {
  const replacesId = replacedId(book, lot.id, seen);
  if (replacesId !== undefined && standing?.id === replacesId) return accept(replacesId);
  return refuse('conflict', `Meanwhile lot ${scene.lotNo} is ${scene.standing}: look at it again.`, 'lotId');
}

/** Replaces the outcome that stands by a further one, with the reason; both are kept. */
export const outcomeCorrect = defineCommand({
  name: 'outcome.correct',
  summary: 'Replaces the outcome of a lot by a further one, with a reason.',
  logLabel: 'Outcome corrected',
  stations: ['block', 'office'],
  input: z.strictObject({
    lotId: rowId,
    /** The outcome that was seen, so that two corrections at once do not overtake each other. */
    ...replacedFields,
    reason: someReason,
    ...outcomeFields,
  }),
  run(context, { lotId, reason, kind, price: priceCents, buyerNo, answered, ...seen }) {
    const found = aboutLot(context, lotId, { buyerNo, now: context.at });
    if (!found.ok) return found;
    const about = found.value;
    const said = { kind, priceCents, buyerNo, answered };
    const decided = withBids(context, about, said, decideCorrection(about.scene, said));
    if (!decided.ok) return decided;
    const replaced = decideReplaced(context, about, seen);
    if (!replaced.ok) return replaced;
    const buyerId = about.buyer?.id ?? null;
    const fields = { ...PLAIN, kind, priceCents, buyerId, remarks: decided.value, replacesId: replaced.value, reason };
    return accept({ outcomeId: saveOutcome(context, lotId, fields), lotId });
  },
});

/** Opens the bidding on a lot again: the outcome that stood is kept, with the reason, and the lot waits to be called. */
export const outcomeReopen = defineCommand({
  name: 'outcome.reopen',
  summary: 'Opens the bidding on a called lot again while the sale runs, with a reason.',
  logLabel: 'Outcome taken back',
  stations: ['block', 'office'],
  input: z.strictObject({
    lotId: rowId,
    /** The outcome that was seen, so that two corrections at once do not overtake each other. */
    ...replacedFields,
    reason: someReason,
  }),
  run(context, { lotId, reason, ...seen }) {
    const about = aboutLot(context, lotId, { buyerNo: null });
    if (!about.ok) return about;
    const decided = decideReopen(about.value.scene);
    if (!decided.ok) return decided;
    const replaced = decideReplaced(context, about.value, seen);
    if (!replaced.ok) return replaced;
    const nobody = { priceCents: null, buyerId: null };
    const fields = { ...PLAIN, kind: 'reopened', ...nobody, replacesId: replaced.value, reason } as const;
    return accept({ outcomeId: saveOutcome(context, lotId, fields), lotId });
  },
});

/** Takes down a choice: the buyer who won it takes several lots at one price each. All of them, or none. */
export const outcomeChoice = defineCommand({
  name: 'outcome.choice',
  summary: 'Records several lots that one buyer takes at one price each, all or none.',
  logLabel: 'Outcome of a choice',
  stations: ['block', 'office'],
  input: z.strictObject({
    saleId: rowId,
    /** `12+15+18`: each of them goes at the price. */
    lots: readBy(parseLotList),
    hammerAt,
    price,
    buyerNo: partyNumber,
    answered: outcomeFields.answered,
  }),
  run(context, { lots, ...said }) {
    const outcomes: { readonly outcomeId: number; readonly lotId: number }[] = [];
    for (const lotNo of lots) {
      const taken = outcomeRecord.run(context, { ...said, lotNo, kind: 'sold' });
      if (!taken.ok) {
        // A field of the lot is the list of lots here, and a question says of which lot it is asked.
        const field = taken.field === 'lotNo' ? 'lots' : taken.field;
        const message = taken.message.includes(`Lot ${lotNo} `) ? taken.message : `Lot ${lotNo}. ${taken.message}`;
        return { ...taken, message, ...(field !== undefined && { field }) };
      }
      outcomes.push(taken.value);
    }
    return accept({ outcomes });
  },
});
