/** A tag stands once in the whole book, over all years, unless its piece went home unsold and comes back. */
import { accept, type Result, refuse } from '#lib/result.ts';

export interface TagUse {
  readonly tag: string;
  readonly lotNo: string;
  readonly saleName: string;
  readonly sellerNo: number;
  readonly wentHome: boolean;
  /** True where the other lot is in the sale at hand: a piece is never in two lots of one sale. */
  readonly sameSale: boolean;
}

/** Decides whether a tag that the book already knows may stand on a piece once more. */
export function decideTagUse(use: TagUse): Result<'came_back'> {
  if (use.wentHome && !use.sameSale) return accept('came_back');
  const where = use.sameSale ? `lot ${use.lotNo}` : `lot ${use.lotNo} of ${use.saleName}`;
  const message = `Tag ${use.tag} is already on ${where} (seller number ${use.sellerNo}): check the number on the piece. If both pieces show it, call the agency's officer.`;
  return refuse('taken', message, 'tags');
}
