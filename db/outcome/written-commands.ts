import * as z from 'zod';
import { defineSaleCommand } from '#db/book/command.ts';
import { buyerByNumber } from '#db/book/find.ts';
import { moment, rowId, text } from '#db/book/inputs.ts';
import { updateRow } from '#db/book/rows.ts';
import { sale as saleTable } from '#db/schema/index.ts';
import { momentInWords } from '#lib/date/date.ts';
import { showMoney } from '#lib/money/money.ts';
import { decideBidsOver, decideClose, decideClosing } from '#lib/outcome/bid.ts';
import { QUESTIONS } from '#lib/outcome/decide-outcome.ts';
import { accept, allOf, type Result, refuse } from '#lib/result/result.ts';
import { writtenBids } from './bids.ts';
import { outcomeRecord, PLAIN, saveOutcome } from './commands.ts';
import { newestOutcomeOf } from './queries.ts';
import { type BidQuestion, bidTimes, lotsToAward } from './written.ts';

const ofSale = z.strictObject({ saleId: rowId });

/** The questions that somebody has answered with yes, each for one bid. */
const answers = z
  .array(z.strictObject({ bidId: rowId, question: z.enum(QUESTIONS) }))
  .max(1000)
  .default([]);

/** Closes the written bids by hand, before their time or where none was set. It awards nothing. */
export const bidsClose = defineSaleCommand({
  name: 'bids.close',
  summary: 'Closes the written bids of a sale by hand; the lots are awarded by a further act.',
  logLabel: 'Written bids closed',
  stations: ['block', 'office'],
  input: ofSale,
  run({ sale, ...context }, { saleId }) {
    const { bidding, stage } = sale;
    const decided = decideClose({ bidding, stage, ...bidTimes(context, sale) });
    if (!decided.ok) return decided;
    updateRow(context, saleTable, saleId, { bidsClosedAt: context.at });
    return accept({ saleId });
  },
});

const COUNTED = { awarded: 'awarded', below_minimum: 'belowMinimum', no_bid: 'noBid', on_hold: 'onHold' } as const;

/** Awards every lot that its bids decide, once the bids are closed and all questions are answered. */
export const bidsAward = defineSaleCommand({
  name: 'bids.award',
  summary: 'Awards the lots of a written sale in one act, after the closing and with every question answered.',
  logLabel: 'Written bids awarded',
  stations: ['block', 'office'],
  input: ofSale.extend({ answered: answers }),
  run({ sale, ...context }, { saleId, answered }) {
    const lots = lotsToAward(context.book, sale, writtenBids(context.book, sale));
    if (!lots.ok) return lots;
    const over = decideBidsOver(bidTimes(context, sale), 'award');
    if (!over.ok) return over;
    const open = openQuestion(
      lots.value.flatMap(({ questions }) => questions),
      answered,
    );
    if (open) return open;
    const counts = { awarded: 0, belowMinimum: 0, noBid: 0, onHold: 0 };
    for (const { row, award, questions } of lots.value) {
      counts[COUNTED[award.kind]] += 1;
      if (award.kind !== 'awarded') continue;
      const { priceCents } = award;
      const buyerId = buyerByNumber(context.book, saleId, award.buyerNo)?.id ?? null;
      const replacesId = newestOutcomeOf(context.book, row.id)?.id ?? null;
      const remarks = questions.map(({ question }) => question);
      const sold = { ...PLAIN, kind: 'sold', priceCents, buyerId, remarks, awarded: true, replacesId } as const;
      saveOutcome(context, row.id, sold);
    }
    updateRow(context, saleTable, saleId, { bidsAwardedAt: sale.bidsAwardedAt ?? context.at });
    return accept({ saleId, ...counts });
  },
});

/** The questions that nobody has answered for just this bid; undefined where there is none. */
function openQuestion(asked: readonly BidQuestion[], answered: z.output<typeof answers>) {
  const open = asked.filter(
    ({ bidId, question }) => !answered.some((one) => one.bidId === bidId && one.question === question),
  );
  return allOf(open.map(({ lotNo, words, question }) => refuse('needs_answer', `Lot ${lotNo}. ${words}`, question)));
}

/** Does what the terms say with every lot whose seller has not answered in time. */
export const bidsUnanswered = defineSaleCommand({
  name: 'bids.unanswered',
  summary: 'Keeps or sells the lots below their minimum whose sellers said nothing in time, as the terms say.',
  logLabel: 'Sellers without an answer',
  stations: ['block', 'office'],
  input: ofSale.extend({ answered: answers }),
  run(context, { saleId, answered }) {
    const { sale, book, at } = context;
    const over = decideAnswersOver(bidTimes(context, sale), sale.sellersAnswerBy);
    if (!over.ok) return over;
    const lots = lotsToAward(book, sale, writtenBids(book, sale));
    if (!lots.ok) return lots;
    const counts = { kept: 0, accepted: 0 };
    for (const { lot, award, bidId } of lots.value) {
      if (award.kind !== 'below_minimum') continue;
      const own = answered.filter((one) => one.bidId === bidId).map(({ question }) => question);
      const accepts = sale.noAnswer === 'accepted';
      const said = accepts
        ? ({ kind: 'sold', price: award.priceCents, buyerNo: award.buyerNo } as const)
        : ({ kind: 'passed', price: null, buyerNo: null } as const);
      const done = outcomeRecord.run(context, {
        ...{ saleId, lotNo: lot.lotNo, ...said },
        answered: accepts ? ['below_minimum', 'off_step', ...own] : [],
      });
      if (!done.ok) return { ...done, message: `Lot ${lot.lotNo}, ${showMoney(award.priceCents)}. ${done.message}` };
      counts[accepts ? 'accepted' : 'kept'] += 1;
    }
    if (counts.kept + counts.accepted > 0) return accept({ saleId, at, ...counts });
    return refuse('already', 'No lot waits for its seller.', 'saleId');
  },
});

function decideAnswersOver(times: ReturnType<typeof bidTimes>, answerBy: string | null): Result<null> {
  if (times.awardedAt === null)
    return refuse('wrong_stage', 'The lots are not awarded yet: award them first.', 'saleId');
  if (answerBy === null) {
    return refuse('wrong_stage', 'No time was set until which sellers answer: enter what each one says.', 'saleId');
  }
  if (Date.parse(times.at) > Date.parse(answerBy)) return accept(null);
  const until = momentInWords(answerBy, times.timeZone);
  return refuse('wrong_stage', `Sellers may still answer until ${until}: wait for that.`, 'saleId');
}

export const bidsClosing = defineSaleCommand({
  name: 'bids.closing',
  summary: 'Says when the written bids of a sale close, until when its sellers answer, and what no answer means.',
  logLabel: 'Closing of the written bids set',
  stations: ['block', 'office'],
  input: z.strictObject({
    saleId: rowId,
    /** Null where the bids are open until somebody closes them. */
    closesAt: moment.nullable(),
    answerBy: moment.nullable().default(null),
    /** What it means for a lot below its minimum that its seller says nothing in time. */
    noAnswer: z.enum(['kept', 'accepted']).default('kept'),
    /** Once the clock has closed the bids. */
    reason: text,
  }),
  run({ sale: row, ...context }, { saleId, closesAt, answerBy, noAnswer, reason }) {
    const times = { closesAt, answerBy, reason, ...bidTimes(context, row) };
    const decided = decideClosing({ bidding: row.bidding, ...times });
    if (!decided.ok) return decided;
    updateRow(context, saleTable, saleId, { bidsCloseAt: closesAt, sellersAnswerBy: answerBy, noAnswer });
    return accept({ saleId, closesAt, answerBy, noAnswer });
  },
});
