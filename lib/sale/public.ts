/**
 * The one rule of what the hall may know of a sale without signing in. The Board, following a seller number, the price
 * pages and what they offer as data all ask here.
 */
import type { Stage } from './facts.ts';

export interface PublicParts {
  /** What the newest lots brought, one by one, as it was called aloud. */
  readonly board: boolean;
  /** What the lots of one seller number brought, without a sum, for whoever has the code on its receipt. */
  readonly ofSeller: boolean;
}

export function publicParts(stage: Stage): PublicParts {
  return {
    // What single lots brought once is for those who sold and bought them.
    board: stage !== 'closed',
    ofSeller: stage === 'selling',
  };
}

/**
 * The stages from which the price pages take ranges with enough sellers and buyers behind them; never a single lot. A lot
 * that the Board says counts for none of them (`standOn` in `lib/price/range.ts`): what is left when it is taken away is
 * wide enough, too.
 */
export const PRICED_STAGES: readonly Stage[] = ['selling', 'settling', 'closed'];
