/**
 * The one decimal type of the rules: a private clone of decimal.js, so that no other library's settings reach our sums.
 * Forty digits hold any product of a price, a quantity and a rate without loss; a quotient is rounded once, at the end.
 */
import { Decimal as Library } from 'decimal.js';

export const Decimal = Library.clone({ defaults: true, precision: 40, rounding: Library.ROUND_HALF_UP });
export type Decimal = Library;
/** Whatever stands for a number exactly: a whole number, decimal text, a Decimal. */
export type Numeric = Library.Value;
