import type Database from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { openInMemory } from '../memory-copy.ts';
import { appliedCount, bringUpToDate, knownCount } from '../migrate.ts';

/**
 * A copy in memory, brought up to date, of a book that an older version wrote; null where the book is up to date.
 * The file itself is only looked at: it is brought up to date when somebody opens it to work with it.
 */
export function upToDateCopy(sqlite: Database.Database): Database.Database | null {
  if (appliedCount(sqlite) === knownCount()) return null;
  const copy = openInMemory(sqlite.serialize());
  bringUpToDate(copy, drizzle(copy));
  return copy;
}
