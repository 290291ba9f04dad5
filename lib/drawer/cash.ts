/** The bills and coins by which a drawer is counted. */
import { type Cents, cents, readMoney, showMoney, subtractCents, sumCents, ZERO } from '#lib/money/money.ts';
import { accept, firstMistake, type Mistake, type Result, refuse } from '#lib/result/result.ts';
import { countWords } from '#lib/result/text.ts';

export interface Denomination {
  readonly cents: Cents;
  readonly words: string;
}

/**
 * US dollars: the seven bills of the Bureau of Engraving and Printing and the six coins of the United States Mint that
 * are in circulation (from memory). A dollar can be a bill or a coin, so both count as one line.
 */
const USD = [100_00, 50_00, 20_00, 10_00, 5_00, 2_00, 1_00, 50, 25, 10, 5, 1];

/** Any other currency is counted by the series 1, 2, 5, which most of them follow (common practice, no source). */
const SERIES = [100_00, 50_00, 20_00, 10_00, 5_00, 2_00, 1_00, 50, 20, 10, 5, 2, 1];

export function denominationsOf(currency: string): readonly Denomination[] {
  const values = currency === 'USD' ? USD : SERIES;
  return values.map((value) => {
    const words = value < 100 ? countWords(value, 'cent') : String(value / 100);
    return { cents: cents(value), words };
  });
}

export interface Pieces {
  readonly denominationCents: Cents;
  readonly pieces: number;
}

const COUNT_MISTAKES: readonly Mistake[] = [
  { when: /[^\d]/, say: 'Enter how many bills or coins there are of it as a whole number in digits: 12.' },
  { when: /^0*\d{6,}$/, code: 'too_large', say: 'Enter at most 99999 bills or coins of one kind.' },
];

/** Reads how many bills or coins there are of one kind: a whole number up to 99999; nothing typed is none. */
export function parseBills(text: string): Result<number> {
  return firstMistake(COUNT_MISTAKES, text) ?? accept(Number.parseInt(`0${text}`, 10));
}

export function countCash(pieces: readonly Pieces[]): Cents {
  return sumCents(pieces.map((one) => cents(one.denominationCents * one.pieces)));
}

/**
 * The change in whole cents for cash given towards an amount, both as they were typed. An empty `given` is the exact
 * amount. Refuses what is no amount, and cash that does not reach, under the field `amount` or `given`.
 */
export function changeFor(amount: string, given: string): Result<Cents> {
  const taken = readMoney(amount, { allowZero: false });
  if (!taken.ok) return { ...taken, field: 'amount' };
  if (given === '') return accept(ZERO);
  const cash = readMoney(given);
  if (!cash.ok) return { ...cash, field: 'given' };
  if (cash.value >= taken.value) return accept(subtractCents(cash.value, taken.value));
  const message = `${showMoney(cash.value)} does not reach ${showMoney(taken.value)}: take a smaller amount for a part payment.`;
  return refuse('conflict', message, 'given');
}
