/**
 * Who of the office looked at what is stored about whom. Beside the book and not in it: a look changes nothing, and a log
 * entry for it would have to be replayed. The person is a number here: a name that was put right is right here, too.
 */
import { desc, lte, sql } from 'drizzle-orm';
import type { Store } from './store.ts';
import { look } from './tables.ts';

/** Their card at the Office, everything as a file, or their lines of the log. */
export type Look = 'card' | 'whole file' | 'log';

interface Looked {
  /** Milliseconds since 1970. */
  readonly at: number;
  readonly worker: string;
  readonly personId: number;
  readonly what: Look;
}

const MOST_LOOKS = 20_000;
const HOUR_MS = 3_600_000;

/** Counts looks of one worker at one person in one hour as one row; the oldest rows go when there are very many. */
export function noteLook({ db }: Store, looked: Looked): void {
  const { at, worker, personId, what } = looked;
  const counted = `${Math.floor(at / HOUR_MS)} ${what} ${personId} ${worker}`;
  const { id, times } = db
    .insert(look)
    .values({ ...looked, counted, times: 1 })
    .onConflictDoUpdate({ target: look.counted, set: { at, times: sql`${look.times} + 1` } })
    .returning({ id: look.id, times: look.times })
    .get();
  if (times === 1)
    db.delete(look)
      .where(lte(look.id, id - MOST_LOOKS))
      .run();
}

/** The last looks, newest first. */
export function looks({ db }: Store, most: number): (typeof look.$inferSelect)[] {
  return db.select().from(look).orderBy(desc(look.at), desc(look.id)).limit(most).all();
}
