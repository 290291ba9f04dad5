/** What some lots brought as one range, with how much it rests on. */
import type { FurForm } from '#lib/lot/fields.ts';
import { type PricedLot, type PriceMeasure, type PriceRow, rowOf } from './table.ts';

export interface OfferedLot {
  readonly goods: string;
  readonly measure: PriceMeasure;
  readonly section: string;
  readonly size: string;
  readonly grade: string;
  readonly form: FurForm;
  /** Numbers that are the same for two lots where the same people stand behind them; null in a plain price list. */
  readonly seller: number | null;
  readonly buyer: number | null;
  /** What it brought, or null where it found no buyer. */
  readonly priced: PricedLot | null;
  /** True while the Board says its price: whoever takes it from a range knows what the others brought. */
  readonly aloud?: boolean;
}

/** Prices are whole cents for one piece, pound or ounce, by sum 10 of the price table. */
export interface PriceRange extends Omit<PriceRow, 'season' | 'goods' | 'section'>, Businesses {
  /** Lots that were called and found no buyer; withdrawn lots are no part of it. Null where nobody knows. */
  readonly unsold: number | null;
  /** True where it rests on so little that it says hardly anything. */
  readonly few: boolean;
}

/** Below these a range is said to rest on few (common practice, no source): pieces, or lots of goods by weight. */
const FEW = { piece: 20, lb: 5, oz: 5 } as const satisfies Record<PriceMeasure, number>;

/** The range of lots of one kind of goods by one measure, whatever their sections; null where none was sold. */
export function rangeOf(lots: readonly OfferedLot[]): PriceRange | null {
  const sold = lots.map(({ priced }) => priced).filter((priced) => priced !== null);
  const [row] = rowOf(sold);
  if (row === undefined) return null;
  const { measure } = row;
  const { goods: _goods, season: _season, section: _section, ...figures } = row;
  const observations = sold.reduce((so, { times }) => so + times, 0);
  const few = observations < FEW[measure];
  const people = businesses(lots);
  return { ...figures, ...people, unsold: people.sellers === null ? null : lots.length - sold.length, few };
}

/** Null where a plain price list is all there is; its lots are then its rows. */
interface Businesses {
  readonly sellers: number | null;
  readonly buyers: number | null;
}

/** How many sellers and buyers stand behind the sold lots; nobody knows of rows of a plain price list. */
export function businesses(lots: readonly OfferedLot[]): Businesses {
  const { sellers, buyers, nobodyKnows } = behind(lots, Number.POSITIVE_INFINITY);
  return nobodyKnows ? { sellers: null, buyers: null } : { sellers, buyers };
}

/**
 * Whether there are at least so many of both, without the lots that the Board says one by one; or nobody knows: a plain
 * price list, the association gave out itself.
 */
export function standOn(lots: readonly OfferedLot[], fewest: number): boolean {
  // Where one is enough, nothing is to be hidden.
  const unsaid = fewest > 1 ? lots.filter(({ aloud }) => aloud !== true) : lots;
  const { sellers, buyers, nobodyKnows } = behind(unsaid, fewest);
  return nobodyKnows || (sellers >= fewest && buyers >= fewest);
}

/** Goes on only until there are `enough` of both: a range is asked again for each of its parts. */
function behind(lots: readonly OfferedLot[], enough: number) {
  const sellers = new Set<number>();
  const buyers = new Set<number | null>();
  for (const { priced, seller, buyer } of lots) {
    if (priced === null) continue;
    if (seller === null) return { sellers: 0, buyers: 0, nobodyKnows: true };
    sellers.add(seller);
    buyers.add(buyer);
    if (sellers.size >= enough && buyers.size >= enough) break;
  }
  return { sellers: sellers.size, buyers: buyers.size, nobodyKnows: false };
}

/** How many of a hundred called lots found no buyer, to the nearest whole one; null where nobody knows. */
export function unsoldPercent({ lots, unsold }: Pick<PriceRange, 'lots' | 'unsold'>): number | null {
  if (unsold === null) return null;
  return Math.round((100 * unsold) / (lots + unsold));
}

/**
 * Gives each group of people a number that it shares with every group it is linked to by a person, directly or over
 * others. A man who sells alone and also with his brother is no second seller to hide behind.
 */
export function linked<Key>(groups: ReadonlyMap<Key, readonly number[]>): Map<Key, number> {
  const leader = new Map<number, number>();
  const leaderOf = (person: number): number => {
    const next = leader.get(person) ?? person;
    return next === person ? person : leaderOf(next);
  };
  for (const [first, ...others] of groups.values()) {
    if (first !== undefined) for (const other of others) leader.set(leaderOf(other), leaderOf(first));
  }
  return new Map([...groups].map(([key, [first]]) => [key, leaderOf(first ?? 0)]));
}
