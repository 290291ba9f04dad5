/** Last season's prices of the same goods, as a guard against a decimal point in the wrong place. */
import { type Cents, cents, showMoney } from '#lib/money.ts';

/** The lowest and the highest price that goods brought at the newest earlier sale. */
export interface PriceRange {
  readonly lowCents: Cents;
  readonly highCents: Cents;
}

/**
 * The prices between which nobody is asked: from a tenth of the low to three times the high, both included.
 * How wide the guard is, is common practice, no source.
 */
export function usualPrices({ lowCents, highCents }: PriceRange): PriceRange {
  return { lowCents: cents(Math.ceil(lowCents / 10)), highCents: cents(highCents * 3) };
}

/** A range for people: `8.00 to 14.50`, or one price where both ends are the same. */
export function rangeInWords({ lowCents, highCents }: PriceRange): string {
  return lowCents === highCents ? showMoney(lowCents) : `${showMoney(lowCents)} to ${showMoney(highCents)}`;
}
