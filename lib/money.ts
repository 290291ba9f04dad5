/** Money: whole cents behind one gate, with the rounding named at the call. Cents are never parts of a float. */
import { firstMistake, type Mistake } from '#lib/mistake.ts';
import type { Rate } from '#lib/rate.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { wholeOf } from '#lib/whole.ts';

declare const centsBrand: unique symbol;
/** A whole number of cents (hundredths of the sale's currency), positive or negative. */
export type Cents = number & { readonly [centsBrand]: true };

/** The only way to make `Cents` of a number. Throws a RangeError unless it is a safe integer. */
export function cents(whole: number): Cents {
  if (!Number.isSafeInteger(whole)) throw new RangeError(`${whole} is not a whole number of cents`);
  return (whole === 0 ? 0 : whole) as Cents;
}

export const ZERO = cents(0);
/** The largest amount that may be typed: 9,999,999.99. */
const MOST_TYPED = cents(999_999_999);

export interface MoneyOptions {
  readonly allowNegative?: boolean;
  readonly allowZero?: boolean;
}

const MISTAKES: readonly Mistake[] = [
  { when: /^$/, code: 'missing', say: 'Enter an amount, such as 12.50.' },
  { when: /\s/, say: 'Leave out the spaces: write 1250.00.' },
  { when: /^[+]/, say: 'Leave out the plus sign: write 12.50.' },
  { when: /^[-\u2212]/, say: 'Enter the amount without a minus sign: it cannot be negative here.' },
  { when: /^[\d.]+[eE][-+]?\d+$/, say: 'Write the amount out in digits, without an exponent: 1200.00, not 1.2e3.' },
  { when: /^\d{1,3}(,\d{3})+(\.\d*)?$/, say: 'Leave out the comma between the thousands: write 1250.00.' },
  { when: /^\d*,\d*$/, say: 'Use a point for the cents, not a comma: 12.50.' },
  { when: /[^\d.]/, say: 'Use digits and a point only, without letters or signs: 12.50.' },
  { when: /\..*\./, say: 'Use one point only: 12.50.' },
  { when: /^\.$/, say: 'Enter an amount, such as 12.50.' },
  { when: /\.$/, say: 'Enter the cents behind the point, or leave the point out: 12.50 or 12.' },
  { when: /\.\d{3,}$/, say: 'Use at most two digits behind the point: 12.50.' },
  { when: /^0*\d{8,}(\.|$)/, code: 'too_large', say: 'Enter an amount of at most 9999999.99.' },
];

/** Reads an amount as it is typed or as the exchange folder spells it: `12`, `12.5`, `12.50`, `.35`. */
export function parseMoney(text: string, options: MoneyOptions = {}): Result<Cents> {
  const negative = options.allowNegative === true && text.startsWith('-');
  const digits = negative ? text.slice(1) : text;
  const mistake = firstMistake(MISTAKES, digits);
  if (mistake !== null) return mistake;
  const amount = cents(wholeOf(digits, 2));
  if (amount > MOST_TYPED) return refuse('too_large', 'Enter an amount of at most 9999999.99.');
  if (amount === 0 && options.allowZero === false) return refuse('malformed', 'Enter an amount of more than 0.00.');
  return accept(negative ? negate(amount) : amount);
}

function parts(amount: Cents): { sign: string; whole: string; rest: string } {
  const digits = String(Math.abs(amount)).padStart(3, '0');
  return { sign: amount < 0 ? '-' : '', whole: digits.slice(0, -2), rest: digits.slice(-2) };
}

/** The exchange folder's spelling: `1250.00`, `-1.56`. */
export function formatMoney(amount: Cents): string {
  const { sign, whole, rest } = parts(amount);
  return `${sign}${whole}.${rest}`;
}

/** The spelling for people, with commas between the thousands: `1,250.00`, `-1.56`. */
export function showMoney(amount: Cents): string {
  const { sign, whole, rest } = parts(amount);
  return `${sign}${whole.replace(/\B(?=(\d{3})+$)/g, ',')}.${rest}`;
}

/** An amount in a sentence, with the sign of its currency (ISO 4217): `$1,250.00`. */
export function amountInWords(amount: Cents, currency: string): string {
  return new Intl.NumberFormat('en-US', { style: 'currency', currency }).format(amount / 100);
}

export function sumCents(amounts: Iterable<Cents>): Cents {
  let total: number = 0;
  for (const amount of amounts) total += amount;
  return cents(total);
}

export function addCents(...amounts: readonly Cents[]): Cents {
  return sumCents(amounts);
}

export function subtractCents(from: Cents, amount: Cents): Cents {
  return cents(from - amount);
}

export function negate(amount: Cents): Cents {
  return cents(-amount);
}

/**
 * `amount × times ÷ per`, rounded half up. Whole numbers hold most products exactly and are several times as quick as
 * anything else over a whole sale; a product they cannot hold goes the way of BigInt. `times` and `per` are whole, `per` above 0.
 * Throws a RangeError when the result is no safe integer; the largest price times the largest quantity stays within.
 */
export function scaleHalfUp(amount: Cents, times: number, per: number): Cents {
  const product = amount * times;
  if (!Number.isSafeInteger(product)) return scaleLarge(BigInt(amount) * BigInt(times), BigInt(per));
  const rest = product % per;
  const whole = (product - rest) / per;
  return cents(2 * Math.abs(rest) >= per ? whole + Math.sign(rest) : whole);
}

function scaleLarge(product: bigint, per: bigint): Cents {
  const size = product < 0n ? -product : product;
  const whole = (2n * size + per) / (2n * per);
  return cents(Number(product < 0n ? -whole : whole));
}

/** `pct` per cent of an amount, rounded half up to the cent. */
export function percentOf(amount: Cents, pct: Rate): Cents {
  return scaleHalfUp(amount, tenThousandths(pct), 1_000_000);
}

const rates = new Map<Rate, number>();

/** A rate has at most four places, so its ten thousandths are whole. Kept, because a sale has a handful of rates. */
function tenThousandths(pct: Rate): number {
  const known = rates.get(pct);
  if (known !== undefined) return known;
  const whole = wholeOf(pct, 4);
  rates.set(pct, whole);
  return whole;
}

/**
 * Parts an amount by whole numbers of parts (the method of largest remainders): each share is first the whole cents
 * not above it, and the cents left over go one each to the largest remainders, a tie to the earlier. The shares add up
 * to the amount. A negative amount, which the sellers owe, goes by the same words: its cents left over make the earlier
 * of two equal partners owe the less. Throws a RangeError unless the parts are whole, none negative, not all 0.
 */
export function allocate(total: Cents, parts: readonly number[]): Cents[] {
  if (!parts.every((part) => Number.isSafeInteger(part) && part >= 0)) throw new RangeError('parts are whole numbers');
  const sum = parts.reduce((so, part) => so + BigInt(part), 0n);
  if (sum === 0n) throw new RangeError('there is no part to give to');
  const shares = parts.map((part, at) => ({ at, ...divideDown(BigInt(total) * BigInt(part), sum) }));
  let left = total - shares.reduce((so, share) => so + share.whole, 0);
  // A stable sort keeps the earlier of two equal remainders in front.
  for (const share of [...shares].sort((a, b) =>
    a.remainder < b.remainder ? 1 : a.remainder > b.remainder ? -1 : 0,
  )) {
    if (left === 0) break;
    share.whole += 1;
    left -= 1;
  }
  return shares.map((share) => cents(share.whole));
}

/** Whole division towards the lower number, so that the remainder is never negative. */
function divideDown(dividend: bigint, divisor: bigint): { whole: number; remainder: bigint } {
  const remainder = ((dividend % divisor) + divisor) % divisor;
  return { whole: Number((dividend - remainder) / divisor), remainder };
}
