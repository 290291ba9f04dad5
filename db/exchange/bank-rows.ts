/** What was brought to the bank and what stands on its statements, as the rows of an exchange folder, and back again. */
import { asc } from 'drizzle-orm';
import { markEntry } from '#db/account/post.ts';
import { arrivalsOf, bankedIn, clearedDay, depositsOf } from '#db/bank/queries.ts';
import { saveArrival, saveDeposit } from '#db/bank/save.ts';
import type { CommandContext } from '#db/book/command.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { livePayment } from '#db/schema/index.ts';
import type { Deposit } from '#lib/bank/deposit.ts';
import { type Cents, ZERO } from '#lib/money/money.ts';
import { groupBy } from '#lib/result/text.ts';
import type { WholeRows } from './read-table.ts';
import type { RowOf } from './tables.ts';

const idsOfPayments = query(({ db }) =>
  db
    .select({ id: livePayment.id })
    .from(livePayment)
    .where(equals(livePayment.saleId, 'saleId'))
    .orderBy(asc(livePayment.id)),
);

export interface BankRows extends Pick<WholeRows, 'deposits' | 'arrivals'> {
  /** What the rows of the payments, in their order, say of the bank. */
  readonly ofPayments: readonly Pick<RowOf<'payments'>, 'deposit' | 'on_statement'>[];
}

/**
 * Deposits that stand are numbered from 1: a book has those of all sales in one row, and the voided ones too. One of
 * which everything came back holds nothing, and has no row.
 */
export function bankRows(book: Book, saleId: number): BankRows {
  const ids = idsOfPayments(book)
    .all({ saleId })
    .map(({ id }) => id);
  const good = new Set(ids);
  const holds = ({ voided, cashCents, checks }: Deposit) =>
    voided === null && (cashCents > ZERO || checks.some(({ paymentId }) => good.has(paymentId)));
  const deposits = depositsOf(book, saleId).filter(holds);
  const numbers = new Map(deposits.map(({ depositId }, at) => [depositId, at + 1]));
  const arrivals = arrivalsOf(book, saleId).filter(({ voided }) => voided === null);
  return {
    deposits: deposits.map(({ depositId, day, cashCents }) => ({
      ...{ deposit: numbers.get(depositId) ?? 0, day, cash: cashCents },
      on_statement: clearedDay(book, 'deposit', depositId),
    })),
    arrivals: arrivals.map(({ method, day, amountCents: amount, feeCents: fee }) => ({ method, day, amount, fee })),
    ofPayments: ids.map((id) => ({
      deposit: numbers.get(bankedIn(book, id) ?? 0) ?? null,
      on_statement: clearedDay(book, 'payment', id),
    })),
  };
}

export interface SavedPayment extends Pick<RowOf<'payments'>, 'deposit' | 'on_statement'> {
  readonly paymentId: number;
  readonly amountCents: Cents;
}

/** Writes the deposits by their numbers, what arrived, and the marks; `payments` are those of the folder, saved. */
export function saveBank(
  context: CommandContext,
  saleId: number,
  { deposits, arrivals, payments }: Pick<WholeRows, 'deposits' | 'arrivals'> & { payments: readonly SavedPayment[] },
): void {
  const checks = groupBy(payments, ({ deposit }) => deposit);
  for (const row of [...deposits].sort((a, b) => a.deposit - b.deposit)) {
    const banked = { saleId, day: row.day, cashCents: row.cash, checks: checks.get(row.deposit) ?? [] };
    const sourceId = saveDeposit(context, banked);
    if (row.on_statement !== null) markEntry(context, { kind: 'deposit', sourceId }, row.on_statement);
  }
  for (const { method, day, amount: amountCents, fee: feeCents } of arrivals) {
    saveArrival(context, { saleId, method, day, amountCents, feeCents });
  }
  for (const { paymentId: sourceId, on_statement } of payments) {
    if (on_statement !== null) markEntry(context, { kind: 'payment', sourceId }, on_statement);
  }
}
