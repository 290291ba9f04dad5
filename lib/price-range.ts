/** What some lots brought as one range, with how much it rests on. */
import type { Cents } from '#lib/money.ts';
import { type Measure, type PricedLot, rowOf } from '#lib/price-table.ts';

/** A lot that was called, with whose business it was. */
export interface OfferedLot {
  readonly goods: string;
  readonly measure: Measure;
  readonly section: string;
  readonly size: string;
  readonly grade: string;
  /** Numbers that are the same for two lots where the same people stand behind them. */
  readonly seller: number;
  readonly buyer: number | null;
  /** What it brought, or null where it found no buyer. */
  readonly priced: PricedLot | null;
}

/** Prices are whole cents for one piece, pound or ounce, by rule 10 of the price table. */
export interface PriceRange {
  readonly measure: Measure;
  readonly lots: number;
  /** Lots that were called and found no buyer; withdrawn lots are no part of it. */
  readonly unsold: number;
  readonly sellers: number;
  readonly buyers: number;
  readonly quantity: string;
  readonly quantityThousandths: number;
  readonly lowCents: Cents;
  readonly p25Cents: Cents;
  readonly medianCents: Cents;
  readonly p75Cents: Cents;
  readonly highCents: Cents;
  readonly averageCents: Cents;
  readonly totalCents: Cents;
  /** True where it rests on so little that it says hardly anything. */
  readonly few: boolean;
}

/** Below these a range is said to rest on few (common practice, no source): pieces, or lots of goods by weight. */
const FEW = { piece: 20, lb: 5, oz: 5 } as const satisfies Record<Measure, number>;

/** The range of lots of one kind of goods by one measure, whatever their sections; null where none was sold. */
export function rangeOf(lots: readonly OfferedLot[]): PriceRange | null {
  const sold = lots.flatMap(({ priced }) => (priced === null ? [] : [priced]));
  const [row] = rowOf(sold);
  if (row === undefined) return null;
  const { measure } = row;
  const { goods: _goods, season: _season, section: _section, ...figures } = row;
  const observations = sold.reduce((so, { times }) => so + times, 0);
  const few = observations < FEW[measure];
  return { ...figures, ...businesses(lots), unsold: lots.length - sold.length, few };
}

/** How many sellers and buyers stand behind the sold lots. */
export function businesses(lots: readonly OfferedLot[]): { readonly sellers: number; readonly buyers: number } {
  const sold = lots.filter(({ priced }) => priced !== null);
  return { sellers: new Set(sold.map((lot) => lot.seller)).size, buyers: new Set(sold.map((lot) => lot.buyer)).size };
}

/** How many of a hundred called lots found no buyer, to the nearest whole one. */
export function unsoldPercent({ lots, unsold }: Pick<PriceRange, 'lots' | 'unsold'>): number {
  return Math.round((100 * unsold) / (lots + unsold));
}
