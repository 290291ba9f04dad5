/** Money that was paid by card or otherwise and came to the account by itself: what arrived, and what the processor kept. */
import { shortDate } from '#lib/date/date.ts';
import { type Cents, showMoney, subtractCents, ZERO } from '#lib/money/money.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';

export const ARRIVING = ['card', 'other'] as const;
export type Arriving = (typeof ARRIVING)[number];

export const ARRIVING_WORDS: Readonly<Record<Arriving, string>> = { card: 'Card money', other: 'Other money' };

/** What the treasurer is asked where less arrived than was paid. */
export const FEE_KEPT = 'fee_kept';

export interface Arrival {
  readonly arrivalId: number;
  readonly method: Arriving;
  /** The day on the statement, ISO 8601. */
  readonly day: string;
  /** What was paid in, and what of it did not arrive. */
  readonly amountCents: Cents;
  readonly feeCents: Cents;
  /** Why it was voided, or null where it stands. */
  readonly voided: string | null;
}

export interface ArrivalContext {
  /** What was paid so and has not arrived yet; below nothing where more was given back. */
  readonly lyingCents: Cents;
  /** ISO 8601 dates: the day on the statement, and the day on which it is entered. */
  readonly day: string;
  readonly today: string;
}

export interface ProposedArrival {
  readonly method: Arriving;
  readonly amountCents: Cents;
  readonly arrivedCents: Cents;
  readonly answered: readonly string[];
}

/** What of it did not arrive, once somebody said that it is a fee. */
export function decideArrival({ lyingCents, day, today }: ArrivalContext, proposed: ProposedArrival): Result<Cents> {
  const { method, amountCents, arrivedCents, answered } = proposed;
  const what = ARRIVING_WORDS[method];
  if (lyingCents <= ZERO) return refuse('already', `${what} of this sale: none waits to arrive.`, 'amount');
  if (amountCents > lyingCents) {
    const message = `${what} of this sale: ${showMoney(lyingCents)} has not arrived yet. Enter no more than that.`;
    return refuse('too_large', message, 'amount');
  }
  if (arrivedCents > amountCents) {
    const message = `More arrived than was paid: enter at most ${showMoney(amountCents)}, or more payments above.`;
    return refuse('too_large', message, 'arrived');
  }
  if (day > today) {
    return refuse('conflict', `${shortDate(day)} is still to come: enter the day on the statement.`, 'day');
  }
  const feeCents = subtractCents(amountCents, arrivedCents);
  if (feeCents === ZERO || answered.includes(FEE_KEPT)) return accept(feeCents);
  const [fee, all] = [showMoney(feeCents), showMoney(amountCents)];
  const question = `${fee} of ${all} did not arrive. Did the processor keep it as its fee, to be booked as an expense?`;
  return refuse('needs_answer', question, FEE_KEPT);
}

export interface ArrivalVoidContext {
  /** The row is itself the voiding of another. */
  readonly voids: boolean;
  readonly voided: boolean;
}

export function decideArrivalVoid({ voids, voided }: ArrivalVoidContext): Result<null> {
  const field = 'arrivalId';
  if (voids) return refuse('not_allowed', 'This row takes back another arrival: enter the arrival anew.', field);
  return voided ? refuse('already', 'This arrival was already voided.', field) : accept(null);
}
