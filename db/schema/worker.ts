import { sql } from 'drizzle-orm';
import { check, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { flag, id, line } from './columns.ts';

/**
 * Who works with the book. The passphrase stands only as a scrypt hash with its own salt and cost; sign-ins are no part
 * of the book. A worker who has left stays, because log lines name them.
 */
export const worker = sqliteTable(
  'worker',
  {
    id: id(),
    name: text('name').notNull(),
    /** The name without diacritics and in lower case: two workers never differ in these alone. */
    nameFolded: text('name_folded').notNull().unique(),
    passphraseHash: text('passphrase_hash').notNull(),
    /** The stations' names with one space between, in the order of the house. */
    stations: text('stations').notNull(),
    hasLeft: flag('has_left'),
    line: line(),
  },
  (t) => [check('worker_hash_is_scrypt', sql`${t.passphraseHash} LIKE '$scrypt$%'`)],
);
