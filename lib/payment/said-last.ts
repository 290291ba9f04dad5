/** What happened to the money of somebody last, in words: of two who pay at once, the slower is told. */
import { whenInWords } from '#lib/date/date.ts';
import { amountInWords } from '#lib/money/money.ts';
import type { Direction, Payment } from '#lib/sale/facts.ts';

export interface PaymentsSaid {
  readonly currency: string;
  /** ISO 8601, UTC: the moment of which is spoken. */
  readonly at: string;
  readonly timeZone: string;
  /** The payments of the same party that were not voided, the oldest first. */
  readonly payments: readonly (Pick<Payment, 'direction' | 'personId' | 'amountCents' | 'paidAt'> &
    Partial<Pick<Payment, 'method' | 'reference'>>)[];
}

/**
 * The newest payment that way, such as `$12.50 was taken at 5:27 PM`, or `check 501 over $12.50 was written at 5:27 PM`;
 * empty where there is none.
 */
export function saidLast(
  { currency, at, timeZone, payments }: PaymentsSaid,
  direction: Direction,
  done: string,
): string {
  const last = payments.findLast((payment) => payment.direction === direction);
  if (!last) return '';
  const [amount, when] = [amountInWords(last.amountCents, currency), whenInWords(last.paidAt, at, timeZone)];
  if (direction === 'in' || last.method !== 'check') return `${amount} was ${done} ${when}`;
  const number = (last.reference ?? '').replace(/^check\b\s*/i, '');
  return `${number ? `check ${number}` : 'a check'} over ${amount} was written ${when}`;
}
