/** What a lot must say before it gets its number, and when it may still be changed. */
import type { StandingLot } from '#lib/outcome/decide-outcome.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import type { Stage } from '#lib/sale/facts.ts';
import type { LotSaid } from './fields.ts';

type Judged = 'by' | 'count' | 'weightThousandths' | 'minimumCents' | 'withoutReserve';
export interface ProposedLot extends Pick<LotSaid, Judged> {
  readonly exportTag: boolean;
}

/** Lots come in while the table is open, and late ones while the sale runs. */
export function decideIntakeOpen(stage: Stage): Result<null> {
  if (stage === 'intake' || stage === 'selling') return accept(null);
  const next =
    stage === 'planned' ? 'Open the intake first.' : 'Goods can only be checked in before the sale is settled.';
  return refuse('wrong_stage', `The sale is in the stage “${stage}”. ${next}`);
}

/** Every reason for which the lot cannot be taken as it is, in the order of the form. */
export function decideLot(proposed: ProposedLot): Result<null> {
  const [first, ...also] = reasonsAgainst(proposed);
  if (!first) return accept(null);
  return also.length === 0 ? first : { ...first, also };
}

function reasonsAgainst(lot: ProposedLot): Refusal[] {
  const reasons: Refusal[] = [];
  const byWeight = lot.by === 'lb' || lot.by === 'oz';
  if (byWeight && lot.weightThousandths === null) {
    reasons.push(refuse('missing', `This is sold by the ${lot.by}: enter the weight.`, 'weight'));
  }
  if (!byWeight && lot.weightThousandths !== null) {
    const message = 'A weight belongs to goods sold by lb or oz: leave it out, or change what the price stands for.';
    reasons.push(refuse('malformed', message, 'weight'));
  }
  if (lot.count === null && (!byWeight || lot.exportTag)) {
    reasons.push(refuse('missing', 'Enter the number of pieces.', 'count'));
  }
  if (lot.withoutReserve && lot.minimumCents !== null) {
    reasons.push(refuse('malformed', 'A lot without reserve takes no minimum: clear one of the two.', 'minimum'));
  }
  return reasons;
}

/** A lot is changed only before it is called, and not once the sale is over: after that only outcomes are added. */
export function decideAmend({ lotNo, stage, standing }: StandingLot): Result<null> {
  if (standing !== null) {
    const message = `Lot ${lotNo} is already ${standing}: what was called is no longer changed.`;
    return refuse('already', message, 'lotNo');
  }
  if (stage !== 'settling' && stage !== 'closed') return accept(null);
  const message = `The sale is in the stage “${stage}”, where no lot is changed. Take it back to selling first.`;
  return refuse('wrong_stage', message, 'lotNo');
}

/**
 * The most pieces of some goods that a licence may bring in a season. It is the association's setting, for it to follow
 * what its agency allows: limits differ by State and by year.
 */
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

export function decideSeasonLimit({ goodsName, limit, licences, before, count }: SeasonBrought): Result<null> {
  if (limit === null || count === null) return accept(null);
  const most = limit * licences.length;
  if (before + count <= most) return accept(null);
  const who = licences.join(' and ');
  const what = `With this lot ${who} would have brought ${before + count} pieces of ${goodsName}, and a season allows ${most}.`;
  return refuse('not_allowed', `${what} Check the count and the licence; in doubt, ask the agency's officer.`, 'count');
}

/**
 * Taking a lot out of the sale before it is called. With reserve it may be withdrawn until the hammer falls; without
 * reserve it may not once bids are called for (UCC § 2-328(3)), and written or left bids are such.
 */
export function decideWithdraw(lot: { lotNo: string; withoutReserve: boolean; bids: number }): Result<null> {
  const { lotNo, withoutReserve, bids } = lot;
  if (!withoutReserve || bids === 0) return accept(null);
  const message = `Lot ${lotNo} is sold without reserve and has bids: it can no longer be withdrawn.`;
  return refuse('not_allowed', message, 'lotId');
}
