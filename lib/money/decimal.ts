/**
 * The arithmetic of the sums: a private clone of decimal.js, so that no other library's settings reach them. Forty digits
 * hold any product of a price, a quantity and a rate without loss. A sum takes whole cents, works in Decimal, and rounds
 * to whole cents with `roundHalfUp` where docs/exchange.md says so and nowhere else.
 */
import { Decimal as Library } from 'decimal.js';
import { type Cents, cents } from './money.ts';
import type { Rate } from './rate.ts';

export const Decimal = Library.clone({ defaults: true, precision: 40, rounding: Library.ROUND_HALF_UP });
export type Decimal = Library;
/** Whatever stands for a number exactly: a whole number, decimal text, a Decimal. */
export type Numeric = Library.Value;

/** A decimal number of cents as whole cents; a tie goes away from zero (General Decimal Arithmetic `half_up`). */
export function roundHalfUp(amount: Decimal): Cents {
  return cents(amount.toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber());
}

/** `pct` per cent of an amount, not rounded. */
export function percentOf(amount: Cents, pct: Rate): Decimal {
  return new Decimal(amount).times(pct).dividedBy(100);
}
