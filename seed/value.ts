/** What a planned lot is worth, for what its price stands for. */
import { Decimal } from '#lib/decimal.ts';
import type { PlannedLot } from './lots.ts';
import { type Season, worth } from './market.ts';

/** The worth of a piece, a pound, an ounce, or of the whole lot where it is sold by the lot; cents, not rounded. */
export function worthOf(lot: PlannedLot, season: Season): Decimal {
  const one = worth(lot, season);
  return lot.by === 'lot' ? one.times(new Decimal(lot.count ?? 1)) : one;
}
