import { sql } from 'drizzle-orm';
import { type AnySQLiteColumn, check, index, integer, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import type { Arriving } from '#lib/bank/arrival.ts';
import { journalEntry } from './account.ts';
import { centsColumn, id, line, oneOf, references, wholeNumberColumn, words } from './columns.ts';
import { payment } from './money.ts';
import { sale } from './sale.ts';

/** Checks and cash of a sale that were brought to the bank together. A row that voids another names it. */
export const deposit = sqliteTable(
  'deposit',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    /** The day where the association is, ISO 8601. */
    day: text('day').notNull(),
    cashCents: centsColumn('cash_cents').notNull(),
    voidsId: integer('voids_id').references((): AnySQLiteColumn => deposit.id),
    reason: words('reason'),
    line: line(),
  },
  (t) => [
    index('deposit_sale').on(t.saleId),
    uniqueIndex('deposit_voided_once').on(t.voidsId),
    wholeNumberColumn('deposit_cash', t.cashCents),
    check('deposit_cash_not_below', sql`${t.cashCents} >= 0`),
  ],
);

/** A check in a deposit: the payment that it was taken in by. A row that voids a deposit has none. */
export const depositItem = sqliteTable(
  'deposit_item',
  {
    id: id(),
    depositId: references('deposit_id', () => deposit.id),
    paymentId: references('payment_id', () => payment.id),
    line: line(),
  },
  (t) => [uniqueIndex('deposit_item_once').on(t.depositId, t.paymentId), index('deposit_item_payment').on(t.paymentId)],
);

/** Money paid by card or otherwise that arrived on the account, less the fee that was kept. A row that voids another names it. */
export const arrival = sqliteTable(
  'arrival',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    method: text('method').$type<Arriving>().notNull(),
    /** The day on the statement, ISO 8601. */
    day: text('day').notNull(),
    /** Of the payments; what arrived is less by the fee. */
    amountCents: centsColumn('amount_cents').notNull(),
    feeCents: centsColumn('fee_cents').notNull(),
    voidsId: integer('voids_id').references((): AnySQLiteColumn => arrival.id),
    reason: words('reason'),
    line: line(),
  },
  (t) => [
    index('arrival_sale').on(t.saleId),
    uniqueIndex('arrival_voided_once').on(t.voidsId),
    oneOf('arrival_method', t.method, ['card', 'other']),
    wholeNumberColumn('arrival_amount', t.amountCents),
    wholeNumberColumn('arrival_fee', t.feeCents),
    check('arrival_something', sql`${t.feeCents} >= 0 AND ${t.amountCents} > ${t.feeCents}`),
  ],
);

/** That an entry of the journal stands on a statement of the bank. A row that takes a mark away names it. */
export const bankMark = sqliteTable(
  'bank_mark',
  {
    id: id(),
    entryId: references('entry_id', () => journalEntry.id),
    /** The day on the statement, ISO 8601. */
    day: text('day').notNull(),
    voidsId: integer('voids_id').references((): AnySQLiteColumn => bankMark.id),
    line: line(),
  },
  (t) => [index('bank_mark_entry').on(t.entryId), uniqueIndex('bank_mark_voided_once').on(t.voidsId)],
);
