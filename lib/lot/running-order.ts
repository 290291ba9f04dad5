/**
 * The order in which lots come up. A sale has one order; single lots may be given a place before or behind all others,
 * and a sale run by hand gives every lot its place.
 */
import { compareCodePoints } from '#lib/result/text.ts';
import { compareLotNo, type LotNo } from './number.ts';

/** By lot number, by seller number, by kind of goods, or by hand from where the order stood. */
export const RUNNING_ORDERS = ['lot', 'seller', 'goods', 'hand'] as const;
export type RunningOrder = (typeof RUNNING_ORDERS)[number];

export interface Runner {
  readonly lotNo: LotNo;
  readonly sellerNo: number;
  readonly goodsName: string;
  /** Below 0: before the others. Above 0: behind them, or a sale run by hand. Null: where the sale's order has it. */
  readonly place: number | null;
}

/** The lots in the order in which they come up; a tie goes by lot number. */
export function inRunningOrder<T extends Runner>(order: RunningOrder, lots: readonly T[]): T[] {
  const inOrder = IN_ORDER[order];
  return [...lots].sort((a, b) => placeOf(a) - placeOf(b) || inOrder(a, b) || compareLotNo(a.lotNo, b.lotNo));
}

const IN_ORDER: Readonly<Record<RunningOrder, (a: Runner, b: Runner) => number>> = {
  lot: () => 0,
  seller: (a, b) => a.sellerNo - b.sellerNo,
  goods: (a, b) => compareCodePoints(a.goodsName, b.goodsName),
  hand: () => 0,
};

function placeOf({ place }: Runner): number {
  return place ?? 0;
}

export function placeInFront(lots: readonly Runner[]): number {
  return lots.reduce((lowest, lot) => Math.min(lowest, placeOf(lot)), 0) - 1;
}

/** A place behind every lot that is still to come: where a seller goes who is not ready. */
export function placeBehind(lots: readonly Runner[]): number {
  return lots.reduce((highest, lot) => Math.max(highest, placeOf(lot)), 0) + 1;
}

/** The places 1, 2, 3 … of lots in the order they stand in, with one of them moved before another. */
export function placesWithMoved<T extends Runner>(lots: readonly T[], moved: T, before: T): Map<T, number> {
  const others = lots.filter((lot) => lot !== moved);
  const at = others.indexOf(before);
  const inNewOrder = [...others.slice(0, at), moved, ...others.slice(at)];
  return new Map(inNewOrder.map((lot, position) => [lot, position + 1]));
}
