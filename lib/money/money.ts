/**
 * Money as whole cents behind one gate, rates and weights: how they are typed and written, and cents added up. Whole cents
 * are added as integers, which is exact by definition; whatever multiplies or divides them is in decimal.js, in `lib/money/decimal.ts`
 * and the sums. Nothing here loads that library, because every page of the browser loads this file.
 */
import { accept, firstMistake, type Mistake, type Result, refuse } from '#lib/result/result.ts';

declare const centsBrand: unique symbol;
/** A whole number of cents (hundredths of the sale's currency), positive or negative. */
export type Cents = number & { readonly [centsBrand]: true };

/** The only way to make `Cents` of a number. Throws a RangeError unless it is a safe integer. */
export function cents(whole: number): Cents {
  if (!Number.isSafeInteger(whole)) throw new RangeError(`${whole} is not a whole number of cents`);
  return (whole === 0 ? 0 : whole) as Cents;
}

export const ZERO = cents(0);

export interface MoneyOptions {
  readonly allowNegative?: boolean;
  readonly allowZero?: boolean;
}

const MONEY_MISTAKES: readonly Mistake[] = [
  { when: /^$/, code: 'missing', say: 'Enter an amount, such as 12.50.' },
  { when: /\s/, say: 'Leave out the spaces: write 1250.00.' },
  { when: /^[+]/, say: 'Leave out the plus sign: write 12.50.' },
  { when: /^[-\u2212]/, say: 'Enter the amount without a minus sign: it cannot be negative here.' },
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
  const mistake = firstMistake(MONEY_MISTAKES, digits);
  if (mistake !== null) return mistake;
  const amount = cents(parseScaled(digits, 2));
  if (amount === 0 && options.allowZero === false) return refuse('malformed', 'Enter an amount of more than 0.00.');
  return accept(negative ? negate(amount) : amount);
}

/** The same as people write it, where it has one meaning: `$1,250`, `2.`, and with blanks around it. */
export function readMoney(text: string, options: MoneyOptions = {}): Result<Cents> {
  const bare = text.trim().replace(/^(-?)\$\s*|\.$/g, '$1');
  return parseMoney(
    bare.replace(/^-?\d{1,3}(,\d{3})+(?=\.|$)/, (whole) => whole.replaceAll(',', '')),
    options,
  );
}

/**
 * Decimal text as a whole number of its smallest unit, digit by digit: `12.5` at two places is 1250.
 * `text` is digits with at most one point and no more than `places` digits behind it: the parsers have seen to that.
 */
export function parseScaled(text: string, places: number): number {
  const point = text.indexOf('.');
  const before = point < 0 ? text : text.slice(0, point);
  const behind = point < 0 ? '' : text.slice(point + 1);
  return Number.parseInt(`0${before}${behind.padEnd(places, '0')}`, 10);
}

/** A weight in thousandths as decimal text without idle zeros: 7350 is `7.35`. */
export function formatWeight(thousandths: number): string {
  const rest = String(thousandths % 1000)
    .padStart(3, '0')
    .replace(/0+$/, '');
  return `${Math.floor(thousandths / 1000)}${rest === '' ? '' : `.${rest}`}`;
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

/** The sum of one amount of each item: `sumOf(rows, 'feesCents')`. */
export function sumOf<N extends string>(items: readonly { readonly [name in N]: Cents }[], name: N): Cents {
  return sumCents(items.map((item) => item[name]));
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
