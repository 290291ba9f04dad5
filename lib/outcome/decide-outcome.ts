/**
 * What the book allows when the hammer falls. Each lot is a separate sale, complete at the hammer (UCC § 2-328):
 * so there is one outcome a lot, it is never edited, and a tagged lot without its tags is not put up at all.
 */
import { type Cents, formatMoney, ZERO } from '#lib/money/money.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import type { OutcomeKind, Stage } from '#lib/sale/facts.ts';

/** What the clerk is asked before an unusual outcome is saved; the answer stays with the outcome. */
export const QUESTIONS = [
  'answer_late',
  'below_minimum',
  'seller_buys',
  'buyer_not_cleared',
  'over_limit',
  'price_unusual',
  'off_step',
  'left_bid',
] as const;
export type OutcomeQuestion = (typeof QUESTIONS)[number];
/** The book alone asks about left bids: it knows those of this moment (`left.ts`). */
type AskedHere = Exclude<OutcomeQuestion, 'left_bid'>;

/** A lot as it is when something is to be done with it. */
export interface StandingLot {
  readonly lotNo: string;
  readonly stage: Stage;
  /** The outcome that stands already, as words: `sold to buyer 10 at 12.50`; null for a lot that is still to be called. */
  readonly standing: string | null;
}

export interface OutcomeContext extends StandingLot {
  /** Who took it down and when, as words, or null: `Ada at 15:04`. */
  readonly takenDown?: string | null;
  readonly holds: readonly string[];
  /** Of written bids: until when the seller could accept one below the minimum, where that time has passed; else null. */
  readonly answerWasBy?: string | null;
  /** Of written bids that still come in: why the lot is not sold or passed yet. Null where they are over, or not asked. */
  readonly bidsRun?: Readonly<Record<'sold' | 'passed', Refusal | null>> | null;
  readonly minimumCents: Cents | null;
  readonly priceStepCents: Cents;
  /** The prices between which the step and the range of earlier prices make no question, or null where there is no ground. */
  readonly usual: { readonly lowCents: Cents; readonly highCents: Cents } | null;
  readonly buyer: {
    readonly buyerNo: number;
    readonly cleared: boolean;
    readonly sellsThisLot: boolean;
    /** Of written bids: by how much the lot at this price goes beyond the buyer's limit, in words; null where it does not. */
    readonly beyondLimit?: string | null;
  } | null;
}

export interface ProposedOutcome {
  /** That a lot was not paid for is never the hammer's: `unpaid.ts` decides it. */
  readonly kind: Exclude<OutcomeKind, 'unpaid'>;
  readonly priceCents: Cents | null;
  readonly buyerNo: number | null;
  readonly answered: readonly OutcomeQuestion[];
}

/** Decides a first outcome of a lot. Accepts with the questions that were answered and applied, to be kept with it. */
export function decideOutcome(context: OutcomeContext, proposed: ProposedOutcome): Result<readonly OutcomeQuestion[]> {
  if (context.stage !== 'selling') return notSelling(context);
  if (context.standing !== null) {
    const what = `Lot ${context.lotNo} is already ${context.standing}.`;
    const who = context.takenDown ? ` Taken down by ${context.takenDown}.` : '';
    return refuse('already', `${what}${who} To change it, correct it and give the reason.`, 'lotNo');
  }
  return decideContents(context, proposed);
}

/** Decides an outcome that replaces the one that stands; the sale may have gone on to settling. */
export function decideCorrection(
  context: OutcomeContext,
  proposed: ProposedOutcome,
): Result<readonly OutcomeQuestion[]> {
  if (context.stage !== 'selling' && context.stage !== 'settling') return notSelling(context);
  if (context.standing === null) {
    const message = `Lot ${context.lotNo} has no outcome to correct. Record its first one at the Block.`;
    return refuse('unknown', message, 'lotNo');
  }
  return decideContents(context, proposed);
}

function notSelling(context: OutcomeContext): Refusal {
  const next = context.stage === 'closed' ? 'The sale is closed: reopen it first.' : 'Start the sale first.';
  return refuse('wrong_stage', `No outcome can be recorded while the sale is in the stage “${context.stage}”. ${next}`);
}

function decideContents(context: OutcomeContext, proposed: ProposedOutcome): Result<readonly OutcomeQuestion[]> {
  if (proposed.kind !== 'withdrawn' && context.holds.length > 0) {
    return refuse('on_hold', `Lot ${context.lotNo} is on hold. ${context.holds.join(' ')}`, 'lotNo');
  }
  // A lot may be withdrawn while bids still come in.
  const early =
    proposed.kind === 'withdrawn' ? null : context.bidsRun?.[proposed.kind === 'passed' ? 'passed' : 'sold'];
  if (early) return early;
  if (proposed.kind === 'bought_back') return decideBoughtBack(context, proposed);
  if (proposed.kind !== 'sold') return decideUnsold(proposed);
  if (proposed.priceCents === null) return refuse('missing', 'Enter the hammer price.', 'price');
  if (context.buyer === null) return unknownBuyer(proposed.buyerNo);
  return askWhatIsUnusual(questionsAbout(context, proposed.priceCents), context, proposed.answered);
}

/**
 * The seller's own bid was the last: a price and nobody who pays it. It may be below the minimum, which is the seller's
 * own. A price that was typed wrong would make the commission wrong, so what is asked of every price is asked of it.
 */
function decideBoughtBack(context: OutcomeContext, proposed: ProposedOutcome): Result<readonly OutcomeQuestion[]> {
  if (proposed.priceCents === null) return refuse('missing', 'Enter the price.', 'price');
  if (proposed.buyerNo !== null) {
    return refuse('malformed', 'Clear the buyer number: nobody pays.', 'buyerNo');
  }
  const asked = questionsAbout({ ...context, buyer: null, minimumCents: null }, proposed.priceCents);
  return askWhatIsUnusual(asked, context, proposed.answered);
}

function decideUnsold(proposed: ProposedOutcome): Result<readonly OutcomeQuestion[]> {
  if (proposed.priceCents === null && proposed.buyerNo === null) return accept([]);
  const message = `A lot that is ${proposed.kind} has no price and no buyer: clear them, or record it as sold.`;
  return refuse('malformed', message, proposed.priceCents === null ? 'buyerNo' : 'price');
}

/** What has to be answered before a written bid takes the lot: all the Block asks, but not the step it was told by. */
export function questionsOfBid(context: OutcomeContext, priceCents: Cents): { question: AskedHere; words: string }[] {
  const asked = questionsAbout({ ...context, minimumCents: null, priceStepCents: ZERO }, priceCents);
  return asked.map((question) => ({ question, words: sentenceOf(question, context) }));
}

function unknownBuyer(buyerNo: number | null): Refusal {
  if (buyerNo === null) return refuse('missing', 'Enter the buyer number.', 'buyerNo');
  const message = `There is no buyer number ${buyerNo}. Check the card, or register the buyer at the Till.`;
  return refuse('unknown', message, 'buyerNo');
}

function questionsAbout(context: OutcomeContext, priceCents: Cents): AskedHere[] {
  const { minimumCents, priceStepCents, usual, buyer } = context;
  const asked: AskedHere[] = [];
  const below = minimumCents !== null && priceCents < minimumCents;
  if (below && context.answerWasBy) asked.push('answer_late');
  if (below) asked.push('below_minimum');
  if (buyer?.sellsThisLot) asked.push('seller_buys');
  if (buyer && !buyer.cleared) asked.push('buyer_not_cleared');
  if (buyer?.beyondLimit) asked.push('over_limit');
  if (usual && (priceCents > usual.highCents || priceCents < usual.lowCents)) asked.push('price_unusual');
  if (priceStepCents > 0 && priceCents % priceStepCents !== 0) asked.push('off_step');
  return asked;
}

function askWhatIsUnusual(
  asked: readonly AskedHere[],
  context: OutcomeContext,
  answered: readonly OutcomeQuestion[],
): Result<readonly OutcomeQuestion[]> {
  const open = asked.find((question) => !answered.includes(question));
  return open === undefined ? accept(asked) : refuse('needs_answer', sentenceOf(open, context), open);
}

function sentenceOf(question: AskedHere, context: OutcomeContext): string {
  switch (question) {
    case 'answer_late':
      return `The sellers’ time to accept a bid below the minimum ended on ${context.answerWasBy}. Does the association let this answer count? If not, the seller keeps the lot.`;
    case 'below_minimum':
      return `The seller's minimum is ${money(context.minimumCents)}. Does the seller accept this price? If not, pass the lot.`;
    case 'seller_buys':
      return `Buyer ${context.buyer?.buyerNo} is a seller of this lot. Was it announced that the seller may bid? If nobody pays, enter 0 as the buyer.`;
    case 'buyer_not_cleared':
      return `Buyer ${context.buyer?.buyerNo} is not cleared to buy. Has the cashier agreed?`;
    case 'over_limit':
      return `Buyer ${context.buyer?.buyerNo} would be ${context.buyer?.beyondLimit}. Has the cashier agreed?`;
    case 'price_unusual':
      return `This price is far from earlier prices (${money(context.usual?.lowCents)} to ${money(context.usual?.highCents)} is usual). Is the decimal point in the right place?`;
    case 'off_step':
      return `Prices go by ${money(context.priceStepCents)} at this sale. Is this price right?`;
  }
}

function money(amount: Cents | null | undefined): string {
  return amount == null ? '' : formatMoney(amount);
}

/**
 * Reopening a lot: where a bid comes in while the hammer falls, the auctioneer may open the bidding again (UCC §
 * 2-328(2)). It is for the moment of the sale: afterwards an outcome is only corrected.
 */
export function decideReopen({ lotNo, stage, standing }: StandingLot): Result<null> {
  if (stage !== 'selling') {
    const message = `A lot is reopened only while the sale runs, and it is in the stage “${stage}”. Correct its outcome instead.`;
    return refuse('wrong_stage', message, 'lotNo');
  }
  if (standing !== null) return accept(null);
  return refuse('unknown', `Lot ${lotNo} has no outcome that could be reopened: record its first one.`, 'lotNo');
}
