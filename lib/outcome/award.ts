/** Who takes a lot of a sealed sale. Sum 9 of docs/exchange.md. */
import type { LotNo } from '#lib/lot/number.ts';
import type { Cents } from '#lib/money/money.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Bid, Bidding, Lot, Stage } from '#lib/sale/facts.ts';

type BestBid = Pick<Bid, 'buyerNo' | 'priceCents'>;

export type Award =
  | (BestBid & { readonly kind: 'awarded' })
  /** The best bid is under the seller's minimum: the seller accepts it or keeps the lot. */
  | (BestBid & { readonly kind: 'below_minimum'; readonly minimumCents: Cents })
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

/**
 * Closing a sale of written bids: every lot that is still open goes by its bids in one act. The highest bid at or above
 * the minimum takes the lot, a tie goes to the earlier; below it the lot waits for its seller, and without a bid it
 * waits as well, to be passed.
 */
export interface AwardContext {
  readonly stage: Stage;
  readonly bidding: Bidding;
  readonly open: readonly (Pick<Lot, 'lotNo' | 'minimumCents'> & { readonly onHold: boolean })[];
  /** The written bids that still count, in the order received. */
  readonly bids: readonly Bid[];
}

export interface AwardOfLot {
  readonly lotNo: LotNo;
  /** `on_hold` where a tag is missing: such a lot cannot be sold, whatever was bid. */
  readonly award: Award | { readonly kind: 'on_hold' };
}

export function decideAwards({ stage, bidding, open, bids }: AwardContext): Result<readonly AwardOfLot[]> {
  if (bidding !== 'sealed') {
    return refuse('not_allowed', 'This sale is called: only a sale of written bids is awarded.', 'saleId');
  }
  if (stage !== 'selling') {
    return refuse('wrong_stage', `The sale is in the stage “${stage}”: start it first, then close the bids.`, 'saleId');
  }
  const byLot = groupBy(bids, ({ lotNo }) => lotNo);
  return accept(
    open.map(({ onHold, ...lot }) => ({
      lotNo: lot.lotNo,
      award: onHold ? { kind: 'on_hold' } : awardLot(lot, byLot.get(lot.lotNo) ?? []),
    })),
  );
}
