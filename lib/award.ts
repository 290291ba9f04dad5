/** Who takes a lot of a sealed sale. Sum 9 of docs/exchange.md. */
import type { Bid, Lot } from '#lib/facts.ts';
import type { Cents } from '#lib/money.ts';

export type Award =
  | { readonly kind: 'awarded'; readonly buyerNo: number; readonly priceCents: Cents }
  /** The best bid is under the seller's minimum: the seller accepts it or keeps the lot. */
  | {
      readonly kind: 'below_minimum';
      readonly buyerNo: number;
      readonly priceCents: Cents;
      readonly minimumCents: Cents;
    }
  | { readonly kind: 'no_bid' };

/**
 * Sum 9: the lot goes to the highest written bid at that price, a tie to the earlier; `bids` are in the order received.
 * When that bid is below the minimum, the lot waits for its seller to accept or keep.
 */
export function awardLot(lot: Pick<Lot, 'lotNo' | 'minimumCents'>, bids: readonly Bid[]): Award {
  let best: Bid | null = null;
  for (const bid of bids) {
    if (bid.lotNo === lot.lotNo && (best === null || bid.priceCents > best.priceCents)) best = bid;
  }
  if (best === null) return { kind: 'no_bid' };
  const { buyerNo, priceCents } = best;
  const { minimumCents } = lot;
  if (minimumCents === null || priceCents >= minimumCents) return { kind: 'awarded', buyerNo, priceCents };
  return { kind: 'below_minimum', buyerNo, priceCents, minimumCents };
}
