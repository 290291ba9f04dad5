/**
 * The most pieces of some goods that a licence may bring in a season. It is the association's setting, for it to follow
 * what its agency allows: limits differ by State and by year.
 */
import { accept, type Result, refuse } from '#lib/result.ts';

export interface SeasonBrought {
  readonly goodsName: string;
  /** Pieces a licence, or null where there is no limit. */
  readonly limit: number | null;
  /** The licences behind the seller number; partners bring their limits together. Somebody without one counts as one. */
  readonly licences: readonly string[];
  /** Pieces of these goods that the same licences brought this season, without this lot. */
  readonly before: number;
  readonly count: number | null;
}

/** Refuses the piece that is one too many. */
export function decideSeasonLimit({ goodsName, limit, licences, before, count }: SeasonBrought): Result<null> {
  if (limit === null || count === null) return accept(null);
  const most = limit * licences.length;
  if (before + count <= most) return accept(null);
  const who = licences.join(' and ');
  const what = `With this lot ${who} would have brought ${before + count} pieces of ${goodsName}, and a season allows ${most}.`;
  return refuse('not_allowed', `${what} Check the count and the licence; in doubt, ask the agency's officer.`, 'count');
}
