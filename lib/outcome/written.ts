/** A written sale as an act with phases, and how each of its bids ends. */
import type { Cents } from '#lib/money/money.ts';
import type { OutcomeKind } from '#lib/sale/facts.ts';
import { areClosed, type BidTimes } from './bid.ts';

/** In their order. `awarded`: lots are still open, and none of them waits for its seller. */
export const PHASES = ['taking', 'closed', 'awarded', 'answers', 'results'] as const;
export type Phase = (typeof PHASES)[number];

export const PHASE_WORDS = {
  taking: 'Taking bids',
  closed: 'Closed',
  awarded: 'Awarded',
  answers: 'Sellers’ answers',
  results: 'Results',
} as const satisfies Readonly<Record<Phase, string>>;

interface PhaseContext extends BidTimes {
  readonly at: string;
  /** Lots without an outcome, and how many of them have a bid below the minimum. */
  readonly open: number;
  readonly waiting: number;
}

/** In which phase a written sale is at a moment. */
export function phaseOf({ open, waiting, ...times }: PhaseContext): Phase {
  if (!areClosed(times)) return 'taking';
  if (times.awardedAt === null) return 'closed';
  if (waiting > 0) return 'answers';
  return open > 0 ? 'awarded' : 'results';
}

/** The phase for the hall, with the times as people read them; empty where none is set. Nothing of it says who leads. */
export function phaseSentence(
  phase: Phase,
  { closesAt, answerBy }: { readonly closesAt: string; readonly answerBy: string },
): string {
  switch (phase) {
    case 'taking':
      return closesAt === '' ? 'Written bids are taken.' : `Written bids are taken until ${closesAt}.`;
    case 'closed':
      return 'The bids are closed. The lots are not awarded yet.';
    case 'awarded':
      return 'The lots are awarded.';
    case 'answers':
      return `The lots are awarded. Sellers answer${answerBy === '' ? '' : ` until ${answerBy}`}.`;
    case 'results':
      return 'Every lot has its result.';
  }
}

interface Ranked {
  readonly bidId: number;
  readonly priceCents: Cents;
  readonly receivedAt: string;
}

/** By the time handed in; two of the same time by the order of typing. A bid of an imported list may have no time. */
export function byHandedIn(a: Omit<Ranked, 'priceCents'>, b: Omit<Ranked, 'priceCents'>): number {
  const when = ({ receivedAt }: { readonly receivedAt: string }) => Date.parse(receivedAt) || 0;
  return when(a) - when(b) || a.bidId - b.bidId;
}

/** The five ways in which a bid ends. */
export const END_WORDS = {
  won: 'won',
  outbid: 'outbid',
  retracted: 'retracted',
  below_minimum: 'below the minimum',
  late: 'late',
} as const;
export type BidEnd = keyof typeof END_WORDS;

export interface EndingBid extends Ranked {
  readonly buyerNo: number;
  readonly retracted: boolean;
  readonly late: boolean;
}

interface EndedLot {
  readonly minimumCents: Cents | null;
  /** The outcome that stands; null for a lot that is still open. */
  readonly outcome: {
    readonly kind: OutcomeKind;
    readonly priceCents: Cents | null;
    readonly buyerNo: number | null;
  } | null;
  /** True for an open lot that was awarded to nobody since its best bid is below the minimum. */
  readonly waits: boolean;
}

/**
 * How each bid on one lot ended, by `bidId`; null while that is open. On a lot that was not sold, a bid that would have
 * been enough fell with the lot: it counts as retracted.
 */
export function endsOf(
  bids: readonly EndingBid[],
  { minimumCents, outcome, waits }: EndedLot,
): Map<number, BidEnd | null> {
  const counting = bids.filter(({ retracted, late }) => !retracted && !late).sort(byHandedIn);
  const sold = outcome !== null && (outcome.kind === 'sold' || outcome.kind === 'unpaid');
  const winner = sold
    ? counting.find((bid) => bid.priceCents === outcome.priceCents && bid.buyerNo === outcome.buyerNo)
    : undefined;
  const endOf = (bid: EndingBid): BidEnd | null => {
    if (bid.retracted) return 'retracted';
    if (bid.late) return 'late';
    if (bid === winner) return 'won';
    if (sold || outcome?.kind === 'bought_back') return 'outbid';
    const below = minimumCents !== null && bid.priceCents < minimumCents;
    if (outcome === null) return waits && below ? 'below_minimum' : null;
    return below ? 'below_minimum' : 'retracted';
  };
  return new Map(bids.map((bid) => [bid.bidId, endOf(bid)]));
}
