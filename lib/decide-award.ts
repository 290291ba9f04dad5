/**
 * Closing a sale of written bids: every lot that is still open goes by its bids in one act. The highest bid at or above
 * the minimum takes the lot, a tie goes to the earlier; below it the lot waits for its seller, and without a bid it
 * waits as well, to be passed.
 */
import { type Award, awardLot } from '#lib/award.ts';
import type { Bid, Bidding, Lot, Stage } from '#lib/facts.ts';
import type { LotNo } from '#lib/lot-number.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

export interface AwardScene {
  readonly stage: Stage;
  readonly bidding: Bidding;
  /** The lots without an outcome. */
  readonly open: readonly (Pick<Lot, 'lotNo' | 'minimumCents'> & { readonly onHold: boolean })[];
  /** The written bids that still count, in the order received. */
  readonly bids: readonly Bid[];
}

export interface AwardOfLot {
  readonly lotNo: LotNo;
  /** `on_hold` where a tag is missing: such a lot cannot be sold, whatever was bid. */
  readonly award: Award | { readonly kind: 'on_hold' };
}

/** Decides all open lots at once, in the order given. */
export function decideAwards({ stage, bidding, open, bids }: AwardScene): Result<readonly AwardOfLot[]> {
  if (bidding !== 'sealed') {
    return refuse('not_allowed', 'This sale is called: only a sale of written bids is awarded.', 'saleId');
  }
  if (stage !== 'selling') {
    return refuse('wrong_stage', `The sale is in the stage “${stage}”: start it first, then close the bids.`, 'saleId');
  }
  const byLot = new Map<LotNo, Bid[]>();
  for (const bid of bids) byLot.set(bid.lotNo, [...(byLot.get(bid.lotNo) ?? []), bid]);
  return accept(
    open.map(({ onHold, ...lot }) => ({
      lotNo: lot.lotNo,
      award: onHold ? { kind: 'on_hold' } : awardLot(lot, byLot.get(lot.lotNo) ?? []),
    })),
  );
}
