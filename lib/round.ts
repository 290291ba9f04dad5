import { Decimal } from '#lib/decimal.ts';
import { type Cents, cents } from '#lib/money.ts';

/** A decimal number of cents as whole cents; a tie goes away from zero (General Decimal Arithmetic `half_up`). */
export function roundHalfUp(amount: Decimal): Cents {
  return cents(amount.toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber());
}
