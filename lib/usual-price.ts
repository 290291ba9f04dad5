/** Last season's prices of the same goods, as a guard against a decimal point in the wrong place. */
import { Decimal } from '#lib/decimal.ts';
import { type Cents, cents, showMoney } from '#lib/money.ts';

/** The lowest and the highest price that goods brought at the newest earlier sale. */
export interface PriceBounds {
  readonly lowCents: Cents;
  readonly highCents: Cents;
}

/**
 * The prices between which nobody is asked: from a tenth of the low to three times the high, both included.
 * How wide the guard is, is common practice, no source.
 */
export function usualPrices({ lowCents, highCents }: PriceBounds): PriceBounds {
  const tenth = new Decimal(lowCents).dividedBy(10).ceil();
  return { lowCents: cents(tenth.toNumber()), highCents: cents(new Decimal(highCents).times(3).toNumber()) };
}

/** A range for people: `8.00 to 14.50`, or one price where both ends are the same. */
export function boundsInWords({ lowCents, highCents }: PriceBounds): string {
  return lowCents === highCents ? showMoney(lowCents) : `${showMoney(lowCents)} to ${showMoney(highCents)}`;
}
