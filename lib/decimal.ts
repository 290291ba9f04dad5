/**
 * The one decimal type of the rules: a private clone of decimal.js, so that no other library's settings reach our sums.
 * Forty digits hold any product of a price, a quantity and a rate without loss; a quotient is rounded once, at the end.
 */
import { Decimal as Library } from 'decimal.js';

export const Decimal = Library.clone({ defaults: true, precision: 40, rounding: Library.ROUND_HALF_UP });
export type Decimal = Library;
/** Whatever stands for a number exactly: a whole number, decimal text, a Decimal. */
export type Numeric = Library.Value;

const parsed = new Map<string, Decimal>();
const MOST_KEPT = 1000;

/** The number a decimal text stands for. Texts are kept, because a sale uses a handful of rates many thousand times. */
export function decimalOf(text: string): Decimal {
  const known = parsed.get(text);
  if (known !== undefined) return known;
  const value = new Decimal(text);
  if (parsed.size < MOST_KEPT) parsed.set(text, value);
  return value;
}
