/**
 * Reopening a lot: where a bid comes in while the hammer falls, the auctioneer may open the bidding again
 * (UCC § 2-328(2)). It is for the moment of the sale: afterwards an outcome is only corrected.
 */
import type { Stage } from '#lib/facts.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

export interface ReopenScene {
  readonly lotNo: string;
  readonly stage: Stage;
  /** The outcome that stands, as words, or null for a lot that is still to be called. */
  readonly standing: string | null;
}

export function decideReopen({ lotNo, stage, standing }: ReopenScene): Result<null> {
  if (stage !== 'selling') {
    const message = `A lot is reopened only while the sale runs, and it is in the stage “${stage}”. Correct its outcome instead.`;
    return refuse('wrong_stage', message, 'lotNo');
  }
  if (standing !== null) return accept(null);
  return refuse('unknown', `Lot ${lotNo} has no outcome that could be reopened: record its first one.`, 'lotNo');
}
