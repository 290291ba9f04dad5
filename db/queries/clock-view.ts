import { desc, sql } from 'drizzle-orm';
import { clockWarning } from '#lib/clock.ts';
import type { Book } from '../open.ts';
import { log, sale } from '../schema/index.ts';
import { statement } from '../statement.ts';
import { timeZoneOf } from './local-days.ts';

const newestTime = statement(({ db }) => db.select({ at: log.at }).from(log).orderBy(desc(log.seq)).limit(1).prepare());

const saleBeingCalled = statement(({ db }) =>
  db
    .select({ heldOn: sale.heldOn })
    .from(sale)
    .where(sql`${sale.stage} = 'selling'`)
    .orderBy(desc(sale.heldOn))
    .limit(1)
    .prepare(),
);

/** What is wrong with the laptop's clock, held against the newest line and a sale that is being called; or null. */
export function clockView(book: Book, now: string): string | null {
  return clockWarning({
    now,
    newest: newestTime(book).get()?.at ?? null,
    heldOn: saleBeingCalled(book).get()?.heldOn ?? null,
    timeZone: timeZoneOf(book),
  });
}
