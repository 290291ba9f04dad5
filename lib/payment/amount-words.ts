/**
 * Amounts inside a sentence or beside a label: a sum that can go either way is said in words, and never with a minus in
 * front. Tables have their own columns for it.
 */
import { type Cents, readMoney, showMoney, ZERO } from '#lib/money/money.ts';
import type { PaidSplit } from '#lib/seller/account.ts';
import { lower, withoutSign } from '#lib/settlement/spelling.ts';

/** A label with its amount, which is never below nothing. */
export interface Labeled {
  readonly label: string;
  readonly amount: string;
}

/** What is owed between a buyer and the association: above 0 the buyer owes, below the association does. */
export function owingWords(owingCents: Cents): Labeled {
  return { label: owingCents < ZERO ? 'We owe the buyer' : 'Owing', amount: withoutSign(owingCents) };
}

/** What a buyer paid by now; apart from it what was set off, what was given up, and what was charged for a returned check. */
export function paidWords({ paidCents, ...apart }: PaidSplit): [Labeled, ...Labeled[]] {
  const label = paidCents < ZERO ? 'Handed back beyond what was paid' : 'Paid so far';
  return [{ label, amount: withoutSign(paidCents) }, ...apartWords(apart)];
}

/** What moved no money, each kind by its name; only a party that has some says it. */
function apartWords({ setOffCents, givenUpCents, feeCents }: Omit<PaidSplit, 'paidCents'>): Labeled[] {
  const said = [
    ['Set off', setOffCents],
    ['Written off', givenUpCents],
    ['Returned-check fee', feeCents],
  ] as const;
  return said.flatMap(([label, cents]) => (cents === ZERO ? [] : [{ label, amount: withoutSign(cents) }]));
}

/** A partner's share and what moved already: `share 87.30, paid 36.98`, or `bill of 5.00, written off 5.00`. */
export function partnerWords(shareCents: Cents, split: PaidSplit): string {
  const share = shareCents < ZERO ? `bill of ${withoutSign(shareCents)}` : `share ${showMoney(shareCents)}`;
  const { paidCents } = split;
  const apart = apartWords(split).map(({ label, amount }) => `${lower(label)} ${amount}`);
  const paid = paidCents > ZERO ? `${withoutSign(paidCents)} paid in` : `paid ${withoutSign(paidCents)}`;
  return [share, ...(paidCents === ZERO && apart.length > 0 ? [] : [paid]), ...apart].join(', ');
}

/** What a seller number is charged or, below nothing, credited: `5.00 charged`, `5.00 credited`. */
export function chargedWords(amountCents: Cents): string {
  return `${withoutSign(amountCents)} ${amountCents < ZERO ? 'credited' : 'charged'}`;
}

/** What moved on an account of the bank: `88.75 out`, `223.65 in`. */
export function movedWords(amountCents: Cents): string {
  return `${withoutSign(amountCents)} ${amountCents < ZERO ? 'out' : 'in'}`;
}

/** What an account comes to: `5.00`, or `5.00 below zero`. */
export function balanceWords(amountCents: Cents): string {
  return amountCents < ZERO ? `${withoutSign(amountCents)} below zero` : showMoney(amountCents);
}

/** An amount as it was typed, as people read it: `1000` is `1,000.00`. What is no amount stays as it is. */
export function typedInWords(text: string): string {
  const read = readMoney(text);
  return read.ok ? showMoney(read.value) : text;
}
