import { desc, sql } from 'drizzle-orm';
import { clockWarning } from '#lib/clock.ts';
import type { Book } from '../open.ts';
import { log, sale } from '../schema/index.ts';
import { timeZoneOf } from './local-days.ts';

/** What is wrong with the laptop's clock, held against the newest line and a sale that is being called; or null. */
export function clockView(book: Book, now: string): string | null {
  const newest = book.prepared('newest time', (db) =>
    db.select({ at: log.at }).from(log).orderBy(desc(log.seq)).limit(1).prepare(),
  );
  const selling = book.prepared('sale being called', (db) =>
    db
      .select({ heldOn: sale.heldOn })
      .from(sale)
      .where(sql`${sale.stage} = 'selling'`)
      .orderBy(desc(sale.heldOn))
      .limit(1)
      .prepare(),
  );
  return clockWarning({
    now,
    newest: newest.get()?.at ?? null,
    heldOn: selling.get()?.heldOn ?? null,
    timeZone: timeZoneOf(book),
  });
}
