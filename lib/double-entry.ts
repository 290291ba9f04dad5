/** Entries of a journal in double entry, and what the accounts come to. */
import { type Cents, subtractCents, sumCents } from '#lib/money.ts';
import { compareCodePoints } from '#lib/order.ts';

export interface Posting {
  readonly account: string;
  /** Never negative; one of debit and credit is 0. */
  readonly debitCents: Cents;
  readonly creditCents: Cents;
}

export interface JournalEntry {
  /** ISO 8601. */
  readonly date: string;
  /** From 1, in the order of the journal. */
  readonly number: number;
  readonly memo: string;
  readonly postings: readonly Posting[];
}

/** Debits less credits of each account, in the order of the accounts' names. */
export function accountBalances(entries: readonly JournalEntry[]): Map<string, Cents> {
  const amounts = new Map<string, Cents[]>();
  for (const { account, debitCents, creditCents } of entries.flatMap(({ postings }) => postings)) {
    const own = amounts.get(account);
    const amount = subtractCents(debitCents, creditCents);
    if (own === undefined) amounts.set(account, [amount]);
    else own.push(amount);
  }
  const sorted = [...amounts].sort(([a], [b]) => compareCodePoints(a, b));
  return new Map(sorted.map(([account, own]) => [account, sumCents(own)]));
}
