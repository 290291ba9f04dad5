import { sql } from 'drizzle-orm';
import { check, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { flag, id, line, words } from './columns.ts';

/** One row at most: under which names the hall reaches this machine, and whether staff may work on an open line. */
export const network = sqliteTable(
  'network',
  {
    id: id(),
    /** Names and addresses besides the machine's own, with one space between. */
    hosts: words('hosts'),
    /** Whether workers may sign in over a line that is not encrypted. */
    plainStaff: flag('plain_staff'),
    /** Why they may. */
    reason: words('reason'),
    /** Who said so, and when (ISO 8601, UTC). */
    worker: text('worker').notNull(),
    at: text('at').notNull(),
    line: line(),
  },
  (t) => [check('network_one', sql`${t.id} = 1`)],
);
