/** Dividing a lot into smaller ones before it is called: 12 becomes 12A and 12B, and nothing is lost on the way. */
import { type Cents, formatWeight, sumCents } from '#lib/money/money.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { By, Measured } from '#lib/sale/facts.ts';
import { allocate } from '#lib/settlement/settlement.ts';
import { LOT_FIELD_NAMES, LOT_FIELDS, type LotField, type LotParted, type LotSaid } from './fields.ts';
import { type LotNo, lotNo, nextLetter, splitLotNo } from './number.ts';

export interface DivideContext extends Measured {
  readonly lotNo: LotNo;
  /** How many bids stand on the lot: they were made for the whole of it. */
  readonly bids: number;
}

export type LotPart = Pick<Measured, 'count' | 'weightThousandths'>;

export function decideDivide(context: DivideContext, parts: readonly LotPart[]): Result<null> {
  const lot = `Lot ${context.lotNo}`;
  if (context.bids > 0) {
    return refuse('not_allowed', `${lot} has bids on it as a whole: take them back first, then divide it.`, 'parts');
  }
  if (parts.length < 2) return refuse('missing', 'Say how much goes into each of at least two parts.', 'parts');
  if (context.count !== null) {
    if (parts.some(({ count }) => count === null)) {
      return refuse('missing', `${lot} was counted: enter the pieces of every part.`, 'parts');
    }
    const sum = parts.reduce((so, { count }) => so + (count ?? 0), 0);
    if (sum !== context.count) return notTheWhole(lot, `${context.count} pieces`, `${sum}`);
  } else if (parts.some(({ count }) => count !== null)) {
    return refuse('malformed', `${lot} was not counted: leave the pieces out, or enter its count first.`, 'parts');
  }
  return decideWeights(context, parts);
}

function decideWeights(context: DivideContext, parts: readonly LotPart[]): Result<null> {
  const lot = `Lot ${context.lotNo}`;
  if (context.weightThousandths === null) {
    if (parts.every(({ weightThousandths }) => weightThousandths === null)) return accept(null);
    return refuse('malformed', `${lot} was not weighed: leave the weights out.`, 'parts');
  }
  if (parts.some(({ weightThousandths }) => weightThousandths === null)) {
    return refuse('missing', `${lot} was weighed: enter the weight of every part.`, 'parts');
  }
  const sum = parts.reduce((so, { weightThousandths }) => so + (weightThousandths ?? 0), 0);
  if (sum === context.weightThousandths) return accept(null);
  return notTheWhole(lot, `${formatWeight(context.weightThousandths)} ${context.by}`, formatWeight(sum));
}

function notTheWhole(lot: string, has: string, sum: string): Result<null> {
  const message = `${lot} has ${has}, but the parts make ${sum}: check the figures, or put the lot's own right first.`;
  return refuse('malformed', message, 'parts');
}

/** The numbers of the parts: the next free letters. None keeps the lot's own, whose ticket was for the whole. */
export function numbersOfParts(own: LotNo, parts: number, inUse: readonly LotNo[]): Result<LotNo[]> {
  const { number } = splitLotNo(own);
  const numbers: LotNo[] = [];
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
  const pieces = parts.map(({ count }) => count ?? 1);
  // A part's share may come to nothing, and a minimum of nothing is none.
  return allocate(minimumCents, pieces).map((share) => (share === 0 ? null : share));
}

/** A lot as the book has it: its goods by their row. */
export interface JoinSide extends Omit<LotSaid, 'goods' | 'note'> {
  readonly lotNo: LotNo;
  readonly sellerId: number;
  readonly goodsId: number;
}

export interface JoinContext {
  readonly stays: JoinSide;
  readonly goes: JoinSide;
  /** How many bids were ever made on either: a bid was made for a lot as it then was. */
  readonly bids: number;
  /** Whether the lot that goes was called before and reopened: then it has a history that must stand. */
  readonly wasCalled: boolean;
}

export type Joined = LotParted;

/** What two lots must say the same of, beside their seller number: the field of a side, and its words. */
type Alike = { [N in LotField]: (typeof LOT_FIELDS)[N]['join'] extends string ? never : N }[LotField];

const ALIKE: readonly (readonly [keyof JoinSide, string])[] = [
  ['sellerId', 'seller number'],
  ...LOT_FIELD_NAMES.filter(mustBeAlike).map((name) => {
    return [name === 'goods' ? 'goodsId' : name, LOT_FIELDS[name].join.alike] as const;
  }),
];

function mustBeAlike(name: LotField): name is Alike {
  return typeof LOT_FIELDS[name].join !== 'string';
}

/** Decides whether the two are one lot's goods, and what they come to together. The field named is `other`. */
export function decideJoin({ stays, goes, bids, wasCalled }: JoinContext): Result<Joined> {
  const both = `Lots ${stays.lotNo} and ${goes.lotNo}`;
  const no = (message: string) => refuse('not_allowed', message, 'other');
  if (stays.lotNo === goes.lotNo) return no(`This is lot ${stays.lotNo} itself: enter the number of the other lot.`);
  if (bids > 0) return no(`${both} have bids on one of them, which were made for that lot alone: leave them apart.`);
  if (wasCalled) return no(`Lot ${goes.lotNo} was called before: open it, and let lot ${stays.lotNo} go into it.`);
  const unlike = ALIKE.filter(([key]) => stays[key] !== goes[key]).map(([, words]) => words);
  if (unlike.length > 0) {
    return no(`${both} differ in ${unlike.join(', ')}: put one of them right first, or leave them apart.`);
  }
  return together(stays, goes);
}

function together(stays: JoinSide, goes: JoinSide): Result<Joined> {
  const both = `Lots ${stays.lotNo} and ${goes.lotNo}`;
  const sides = [stays, goes];
  if ((stays.count === null) !== (goes.count === null)) {
    return refuse('not_allowed', `Of ${both.toLowerCase()} only one was counted: count the other first.`, 'other');
  }
  const minimum = minimumOf(stays, goes);
  if (minimum === undefined) {
    return refuse('not_allowed', `${both} have different minimums: make them alike first.`, 'other');
  }
  return accept({
    count: addedUp(sides.map(({ count }) => count)),
    weightThousandths: addedUp(sides.map(({ weightThousandths }) => weightThousandths)),
    minimumCents: minimum,
  });
}

function addedUp(figures: readonly (number | null)[]): number | null {
  return figures.reduce((sum, figure) => (sum === null || figure === null ? null : sum + figure));
}

/** A minimum for a piece or a pound must be the same; minimums of whole lots are added up. Undefined where they clash. */
function minimumOf({ by, minimumCents: one }: JoinSide, { minimumCents: other }: JoinSide): Cents | null | undefined {
  if (one === null || other === null) return one === other ? null : undefined;
  if (by === 'lot') return sumCents([one, other]);
  return one === other ? one : undefined;
}
