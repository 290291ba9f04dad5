/**
 * Ranges by goods, then section, size, grade and form, in which nobody can read one seller's or one buyer's business.
 * The parts of a range are always parts of the whole: what may not stand alone goes together under one heading, and
 * where that heading would be too narrow itself, the smallest part that could stand alone joins it. So what is left
 * when shown parts are taken from the whole is wide enough as well.
 */
import { compareCodePoints, groupBy } from '#lib/result/text.ts';
import { type OfferedLot, type PriceRange, rangeOf, standOn } from './range.ts';
import type { PriceMeasure } from './table.ts';

export const LEVELS = ['section', 'size', 'grade', 'form'] as const;
export type Level = (typeof LEVELS)[number];

/** How many sellers, and how many buyers, a range has at least where nobody says otherwise. */
export const FEWEST = 3;

export interface RangePart {
  readonly level: Level;
  /** The value that is the same for all its lots, or null for the values that went together. */
  readonly value: string | null;
  readonly values: readonly string[];
  readonly range: PriceRange;
  readonly parts: readonly RangePart[];
}

export interface GoodsRange {
  readonly goods: string;
  readonly measure: PriceMeasure;
  /** Null where too few people stand behind it. */
  readonly range: PriceRange | null;
  readonly parts: readonly RangePart[];
}

/** Every goods and measure of which something was sold, in order; those that are withheld have no range. */
export function goodsRanges(lots: readonly OfferedLot[], fewest = FEWEST): GoodsRange[] {
  return [...groupBy(lots, ({ goods, measure }) => `${measure} ${goods}`)]
    .flatMap(([, group]) => goodsRange(group, fewest))
    .sort((a, b) => compareCodePoints(a.goods, b.goods) || compareCodePoints(a.measure, b.measure));
}

function goodsRange(group: readonly OfferedLot[], fewest: number): GoodsRange[] {
  const [first] = group;
  const range = rangeOf(group);
  if (first === undefined || range === null) return [];
  const { goods, measure } = first;
  if (!standOn(group, fewest)) return [{ goods, measure, range: null, parts: [] }];
  // Most who ask read the whole of thirty seasons and the parts of one: these are worked out when they are read.
  let known: readonly RangePart[] | undefined;
  const found: GoodsRange = {
    goods,
    measure,
    range,
    get parts() {
      known ??= partsOf(group, LEVELS, fewest);
      return known;
    },
  };
  return [found];
}

/** The parts by the first level at which lots can be told apart, each with its own parts by the levels behind it. */
function partsOf(lots: readonly OfferedLot[], levels: readonly Level[], fewest: number): RangePart[] {
  const [level, ...behind] = levels;
  if (level === undefined || (level === 'form' && lots.every(({ form }) => form === 'put_up'))) return [];
  const { alone, together } = divide(lots, level, fewest);
  if (alone.length === 0) return partsOf(lots, behind, fewest);
  const parts = alone.map(([value, group]) => partOf(level, value, group, partsOf(group, behind, fewest)));
  const shown = parts.flat().sort((a, b) => compareCodePoints(a.value ?? '', b.value ?? ''));
  return [...shown, ...partOf(level, null, together, [])];
}

type Group = readonly [value: string, lots: readonly OfferedLot[]];

function divide(lots: readonly OfferedLot[], level: Level, fewest: number) {
  const groups: Group[] = [...groupBy(lots, (lot) => lot[level])];
  const alone = groups.filter(([, group]) => standOn(group, fewest)).sort(bySize);
  const narrow = groups.filter(([, group]) => !standOn(group, fewest));
  // A value of which nothing was sold has no price to be found out, so it draws no other into the rest.
  let together = narrow.flatMap(([, group]) => group);
  while (alone.length > 0 && together.some(({ priced }) => priced !== null) && !standOn(together, fewest)) {
    together = [...together, ...(alone.shift()?.[1] ?? [])];
  }
  return { alone, together };
}

function bySize([one, a]: Group, [other, b]: Group): number {
  return a.length - b.length || compareCodePoints(one, other);
}

function partOf(
  level: Level,
  value: string | null,
  group: readonly OfferedLot[],
  parts: readonly RangePart[],
): RangePart[] {
  const range = rangeOf(group);
  const values = [...new Set(group.map((lot) => lot[level]))].sort(compareCodePoints);
  return range === null ? [] : [{ level, value, values, range, parts }];
}
