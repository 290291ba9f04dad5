import { sql } from 'drizzle-orm';
import { type AnySQLiteColumn, check, index, integer, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';
import type { EntryKind } from '#lib/account/account.ts';
import { centsColumn, id, line, oneOf, references, wholeNumberColumn, words } from './columns.ts';
import { sale } from './sale.ts';

/**
 * An entry of the journal: what one bill, sheet, payment, charge, act at the drawer or deposit moved between the accounts. It is
 * never changed; one that reverses another names it.
 */
export const journalEntry = sqliteTable(
  'journal_entry',
  {
    id: id(),
    saleId: references('sale_id', () => sale.id),
    /** The day where the association is, ISO 8601. */
    day: text('day').notNull(),
    memo: words('memo'),
    kind: text('kind').$type<EntryKind>().notNull(),
    /** What it is of: a buyer of purchases, a seller of proceeds, else the payment, charge, taking, act at the drawer or deposit. */
    sourceId: integer('source_id').notNull(),
    reversesId: integer('reverses_id').references((): AnySQLiteColumn => journalEntry.id),
    line: line(),
  },
  (t) => [
    index('journal_entry_sale').on(t.saleId),
    index('journal_entry_source').on(t.kind, t.sourceId),
    uniqueIndex('journal_entry_reversed_once').on(t.reversesId),
    oneOf('journal_entry_kind', t.kind, [
      ...['purchases', 'proceeds', 'payment', 'charge', 'taking', 'drawer', 'deposit', 'arrival'],
    ]),
  ],
);

/** One account of an entry: a debit is above nothing, a credit below, and those of an entry add up to nothing. */
export const posting = sqliteTable(
  'posting',
  {
    id: id(),
    entryId: references('entry_id', () => journalEntry.id),
    account: text('account').notNull(),
    amountCents: centsColumn('amount_cents').notNull(),
    line: line(),
  },
  (t) => [
    index('posting_entry').on(t.entryId),
    index('posting_account').on(t.account),
    wholeNumberColumn('posting_amount', t.amountCents),
    check('posting_moves', sql`${t.amountCents} <> 0`),
  ],
);
