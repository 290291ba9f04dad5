/** Bids that buyers left with the clerk: which of them applies when the hammer falls, and what it makes of the lot. */
import { addCents, type Cents, formatMoney, ZERO } from '#lib/money/money.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { OutcomeKind } from '#lib/sale/facts.ts';
import type { OutcomeQuestion } from './decide-outcome.ts';
import { OUTCOME_WORDS } from './words.ts';

/** The remark of an outcome that takes up the under-bid, because the winner did not take the lot or did not pay. */
export const UNDER_BID = 'under_bid';

export interface LeftBid {
  readonly buyerNo: number;
  readonly priceCents: Cents;
}

export interface LeftContext {
  readonly lotNo: string;
  /** `step`: one step above the next highest bid; `bid`: at the bid itself. A term of the sale (common practice, no source). */
  readonly term: 'step' | 'bid';
  readonly stepCents: Cents;
  readonly minimumCents: Cents | null;
  /** Those that still count, the highest first, and of two equal ones that which was handed in first. */
  readonly left: readonly LeftBid[];
}

/** What is to be taken down: a price with its buyer, or null where the lot stays unsold. */
export interface AtHammer {
  readonly priceCents: Cents | null;
  readonly buyerNo: number | null;
}

/**
 * The left bid of another buyer that an outcome passes over: a higher one or, where the buyer's own left bid is as high,
 * one that was handed in first. A lot that stays unsold passes over any that reaches its minimum.
 */
export function leftBidPassedOver(context: LeftContext, { priceCents, buyerNo }: AtHammer): LeftBid | undefined {
  const { left, minimumCents } = context;
  if (priceCents === null) return left.find((bid) => bid.priceCents >= (minimumCents ?? ZERO));
  const own = left.findIndex((bid) => bid.buyerNo === buyerNo);
  return left.find(
    (bid, at) =>
      bid.buyerNo !== buyerNo && (bid.priceCents > priceCents || (bid.priceCents === priceCents && at < own)),
  );
}

/**
 * What a left bid makes of the lot against the room: whole cents, never more than the bid. Without a step in the terms
 * it is the bid itself; a minimum that the bid reaches is the least.
 */
export function leftBidMakes(context: LeftContext, bid: LeftBid, roomCents: Cents | null): Cents {
  const { term, stepCents, minimumCents, left } = context;
  if (term === 'bid' || stepCents === 0) return bid.priceCents;
  const others = left.filter(({ buyerNo }) => buyerNo !== bid.buyerNo).map(({ priceCents }) => priceCents);
  const next = Math.max(roomCents ?? 0, ...others.filter((cents) => cents <= bid.priceCents)) as Cents;
  const least = minimumCents ?? stepCents;
  const over = next === 0 ? least : Math.max(addCents(next, stepCents), least);
  return Math.min(bid.priceCents, over) as Cents;
}

/** Asks once where a left bid is passed over. Accepts with the question that was answered and applied. */
export function decideLeft(
  context: LeftContext,
  hammer: AtHammer,
  answered: readonly OutcomeQuestion[],
): Result<readonly OutcomeQuestion[]> {
  const bid = leftBidPassedOver(context, hammer);
  if (!bid) return accept([]);
  if (answered.includes('left_bid')) return accept(['left_bid']);
  const { priceCents, buyerNo } = hammer;
  const equal = context.left.some((one) => one.buyerNo !== bid.buyerNo && one.priceCents === bid.priceCents);
  const whose = `Buyer ${bid.buyerNo} left a bid of ${formatMoney(bid.priceCents)} on lot ${context.lotNo}`;
  const first = equal ? ', handed in before another of the same price' : '';
  const makes = `By the terms they have it at ${formatMoney(leftBidMakes(context, bid, priceCents))}.`;
  const instead =
    priceCents === null
      ? 'Does it stay unsold all the same?'
      : `Is it ${buyerNo === null ? 'bought back' : `sold to buyer ${buyerNo}`} at ${formatMoney(priceCents)} all the same?`;
  return refuse('needs_answer', `${whose}${first}. ${makes} ${instead}`, 'left_bid');
}

/** The left bid that applies when a lot comes up, as the clerk reads it; empty where there is none. */
export function leftBidInWords(context: LeftContext): string {
  const [bid] = context.left;
  if (!bid) return '';
  const makes = leftBidMakes(context, bid, null);
  return `buyer ${bid.buyerNo} up to ${formatMoney(bid.priceCents)}, who has it at ${formatMoney(makes)} without a bid in the room`;
}

interface CalledFor {
  readonly kind: OutcomeKind;
  readonly priceCents: Cents | null;
  /** Who took the lot; null where nobody did. */
  readonly takerNo: number | null;
  readonly buyerNo: number;
  readonly bidCents: Cents;
}

/** What became of a left bid on a lot that was called, for its bidder's slip. */
export function becameOfLeft({ kind, priceCents, takerNo, buyerNo, bidCents }: CalledFor): string {
  if (kind === 'bought_back' && priceCents !== null) return `bought back by its seller at ${formatMoney(priceCents)}`;
  if (priceCents === null || takerNo === null) return OUTCOME_WORDS[kind];
  const at = formatMoney(priceCents);
  if (takerNo === buyerNo) return `took the lot at ${at}`;
  if (priceCents > bidCents) return `outbid: sold at ${at}`;
  if (priceCents === bidCents) return `an equal bid took it at ${at}`;
  return `passed over: sold to buyer ${takerNo} at ${at}`;
}
