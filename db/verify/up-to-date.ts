import Database from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { appliedCount, bringUpToDate, knownCount } from '../migrate.ts';

// Bytes 18 and 19 of an SQLite file say whether it is written through a write-ahead log, which memory has none of.
const WRITE_AHEAD = [18, 19] as const;
const ROLLBACK = 1;

/**
 * A copy in memory, brought up to date, of a book that an older version wrote; null where the book is up to date.
 * The file itself is only looked at: it is brought up to date when somebody opens it to work with it.
 */
export function upToDateCopy(sqlite: Database.Database): Database.Database | null {
  if (appliedCount(sqlite) === knownCount()) return null;
  const bytes = sqlite.serialize();
  for (const place of WRITE_AHEAD) bytes[place] = ROLLBACK;
  const copy = new Database(bytes);
  bringUpToDate(copy, drizzle(copy));
  return copy;
}
