/**
 * What one payment left: the money of its party before it, and what was owed after it. Payments stand in the order of
 * the log, so that a later one changes no paper of an earlier one.
 */

import { paidBy } from '#lib/buyer/buyer.ts';
import { longDate } from '#lib/date/date.ts';
import {
  addCents,
  amountInWords,
  type Cents,
  negate,
  showMoney,
  subtractCents,
  sumCents,
  ZERO,
} from '#lib/money/money.ts';
import { cell, type ListCell, strongCell } from '#lib/paper/list.ts';
import type { Payment } from '#lib/sale/facts.ts';
import { type PartnerAccount, paidOut, partnerAccounts, type Share } from '#lib/seller/account.ts';
import { lower, withoutSign } from '#lib/settlement/spelling.ts';

/** A payment of the same party that stood when this one was recorded. */
export interface EarlierPayment
  extends Pick<Payment, 'direction' | 'method' | 'reference' | 'personId' | 'amountCents'> {
  readonly paymentId: number;
  /** ISO 8601 date, as the association has it. */
  readonly paidOn: string;
}

/** `Balance due after this payment: $206.98`. Above 0 the buyer owes; below, the association owes the buyer. */
export function buyerBalanceWords(owingCents: Cents, currency: string): string {
  if (owingCents === ZERO) return 'Paid in full';
  return owingCents > ZERO
    ? `Balance due after this payment: ${amountInWords(owingCents, currency)}`
    : `After this payment the association owes the buyer ${amountInWords(negate(owingCents), currency)}`;
}

/** Above 0 the association owes the partner; below, the partner owes. */
export function sellerBalanceWords(owingCents: Cents, currency: string): string {
  if (owingCents === ZERO) return 'Paid in full';
  return owingCents > ZERO
    ? `Still to be paid to you after this payment: ${amountInWords(owingCents, currency)}`
    : `Balance due to the association after this payment: ${amountInWords(negate(owingCents), currency)}`;
}

/** Said on a receipt whose bill or sheet was put right after the payment: the balance on it is the one of then. */
export function correctedWords(what: string, number: number, by: number): string {
  return `${what} ${number} was corrected after this payment: see ${what.toLowerCase()} ${by} for what is owed now.`;
}

export interface SellerPaid {
  /** Null where the payment names no partner: then it is of all of them together. */
  readonly personId: string | null;
  readonly direction: Payment['direction'];
  readonly amountCents: Cents;
  readonly earlier: readonly EarlierPayment[];
}

export interface SellerLeft {
  readonly earlier: readonly EarlierPayment[];
  /** Paid before to somebody else of this number and counted here, because it named nobody. */
  readonly otherCents: Cents;
  readonly leftCents: Cents;
}

/** What was paid before to whom this payment goes, and what is left of the shares after it. */
export function leftAfter(shares: readonly Share[], paid: SellerPaid): SellerLeft {
  const { personId, earlier } = paid;
  const mine = (accounts: readonly PartnerAccount[]) =>
    accounts.filter((account) => personId === null || account.personId === personId);
  const before = mine(partnerAccounts(shares, earlier));
  const after = mine(partnerAccounts(shares, [...earlier, paid]));
  // With one partner only, a payment that names nobody is theirs.
  const all = personId === null || shares.length === 1;
  const own = earlier.filter((one) => all || one.personId === personId);
  return {
    earlier: own,
    otherCents: subtractCents(sumCents(before.map(({ paidCents }) => paidCents)), paidOut(own)),
    leftCents: sumCents(after.map(({ owingCents }) => owingCents)),
  };
}

/** One row for each payment before this one, so that the share, less these and this one, is what is left. */
export function earlierRows({ earlier, otherCents }: SellerLeft): ListCell[][] {
  const rows = earlier.map((one) => {
    const sign = one.direction === 'out' ? 'less' : 'plus';
    return [
      cell(
        `${sign} ${lower(paidBy(one.method === 'written_off' ? { ...one, reference: '' } : one))}, ${longDate(one.paidOn)}`,
      ),
      cell(showMoney(one.amountCents)),
    ];
  });
  if (otherCents === ZERO) return rows;
  const sign = otherCents > ZERO ? 'less' : 'plus';
  return [...rows, [cell(`${sign} paid to the number before`), cell(withoutSign(otherCents))]];
}

export function leftRow({ leftCents }: SellerLeft): ListCell[] {
  const label = leftCents < ZERO ? 'To pay back to the association' : 'Left to pay';
  return [strongCell(label), strongCell(withoutSign(leftCents))];
}

/** Whether a stub has anything to say of it: something was paid before, or something is left. */
export function saysMore({ earlier, otherCents, leftCents }: SellerLeft): boolean {
  return earlier.length > 0 || otherCents !== ZERO || leftCents !== ZERO;
}

/** What a buyer owed once this payment was in: the bill as it was then, less what had been paid. */
export function buyerLeft(totalCents: Cents, paid: Omit<SellerPaid, 'personId'>): Cents {
  return addCents(totalCents, paidOut([...paid.earlier, paid]));
}
