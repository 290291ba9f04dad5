/** Dividing a lot into smaller ones before it is called: 12 becomes 12A and 12B, and nothing is lost on the way. */
import type { By, Measured } from '#lib/facts.ts';
import { type LotNo, lotNo, nextLetter, splitLotNo } from '#lib/lot-number.ts';
import { type Cents, formatWeight } from '#lib/money.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { allocate } from '#lib/settlement.ts';

export interface DivideScene extends Measured {
  readonly lotNo: LotNo;
  /** How many bids stand on the lot: they were made for the whole of it. */
  readonly bids: number;
}

export type LotPart = Pick<Measured, 'count' | 'weightThousandths'>;

/** Decides whether the parts are the whole lot again, piece by piece and weight by weight. */
export function decideDivide(scene: DivideScene, parts: readonly LotPart[]): Result<null> {
  const lot = `Lot ${scene.lotNo}`;
  if (scene.bids > 0) {
    return refuse('not_allowed', `${lot} has bids on it as a whole: take them back first, then divide it.`, 'parts');
  }
  if (parts.length < 2) return refuse('missing', 'Say how much goes into each of at least two parts.', 'parts');
  if (scene.count !== null) {
    if (parts.some(({ count }) => count === null)) {
      return refuse('missing', `${lot} was counted: enter the pieces of every part.`, 'parts');
    }
    const sum = parts.reduce((so, { count }) => so + (count ?? 0), 0);
    if (sum !== scene.count) return notTheWhole(lot, `${scene.count} pieces`, `${sum}`);
  } else if (parts.some(({ count }) => count !== null)) {
    return refuse('malformed', `${lot} was not counted: leave the pieces out, or enter its count first.`, 'parts');
  }
  return decideWeights(scene, parts);
}

function decideWeights(scene: DivideScene, parts: readonly LotPart[]): Result<null> {
  const lot = `Lot ${scene.lotNo}`;
  if (scene.weightThousandths === null) {
    if (parts.every(({ weightThousandths }) => weightThousandths === null)) return accept(null);
    return refuse('malformed', `${lot} was not weighed: leave the weights out.`, 'parts');
  }
  if (parts.some(({ weightThousandths }) => weightThousandths === null)) {
    return refuse('missing', `${lot} was weighed: enter the weight of every part.`, 'parts');
  }
  const sum = parts.reduce((so, { weightThousandths }) => so + (weightThousandths ?? 0), 0);
  if (sum === scene.weightThousandths) return accept(null);
  return notTheWhole(lot, `${formatWeight(scene.weightThousandths)} ${scene.by}`, formatWeight(sum));
}

function notTheWhole(lot: string, has: string, sum: string): Result<null> {
  const message = `${lot} has ${has}, but the parts make ${sum}: check the figures, or put the lot's own right first.`;
  return refuse('malformed', message, 'parts');
}

/** The numbers of the parts: the first keeps the lot's own letter or takes the first free one, the others follow. */
export function numbersOfParts(own: LotNo, parts: number, inUse: readonly LotNo[]): Result<LotNo[]> {
  const { number, letter } = splitLotNo(own);
  const numbers: LotNo[] = letter === '' ? [] : [own];
  while (numbers.length < parts) {
    const next = nextLetter(number, [...inUse, ...numbers]);
    if (!next.ok) return { ...next, field: 'parts' };
    numbers.push(lotNo(`${number}${next.value}`));
  }
  return accept(numbers);
}

/** A minimum of the whole lot is parted by pieces, so that the parts' minima add up to it; any other stands as it is. */
export function minimaOfParts(minimumCents: Cents | null, by: By, parts: readonly LotPart[]): (Cents | null)[] {
  if (minimumCents === null || by !== 'lot') return parts.map(() => minimumCents);
  // A part's share may come to nothing, and a minimum of nothing is none.
  return allocate(
    minimumCents,
    parts.map(({ count }) => count ?? 1),
  ).map((share) => (share === 0 ? null : share));
}
