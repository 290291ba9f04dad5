/** What became of a lot, in the words of the hall, and whether its fur went home with that. */
import type { Fate, Outcome, OutcomeKind } from '#lib/sale/facts.ts';

export const OUTCOME_WORDS = {
  sold: 'sold',
  passed: 'no-sale',
  withdrawn: 'withdrawn',
  bought_back: 'bought back',
  unpaid: 'not paid for',
} as const satisfies Readonly<Record<OutcomeKind, string>>;

/** What becomes of the fur of a lot that was not paid for. */
export const FATE_WORDS = {
  seller: 'back to the seller',
  association: 'kept by the association',
  again: 'offered again',
} as const satisfies Readonly<Record<Fate, string>>;

/** Whether the fur goes home with its seller, with the tags on it. What the association keeps, and what is sold, does not. */
export function wentHome({
  kind,
  fate,
}: {
  kind: OutcomeKind | 'reopened';
  fate?: Outcome['fate'] | Fate | null;
}): boolean {
  if (kind === 'unpaid') return fate === 'seller';
  return kind === 'passed' || kind === 'withdrawn' || kind === 'bought_back';
}
