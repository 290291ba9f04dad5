import { existsSync } from 'node:fs';
import Database from 'better-sqlite3';

/**
 * Opens an SQLite file to be read only, and leaves nothing beside it.
 * A connection for reading alone would leave empty `-wal` and `-shm` files behind; one that could write clears them
 * away when it closes. Where a `-wal` stands already somebody has the book open, or was killed: then it is theirs.
 */
export function openQuietly(path: string): Database.Database {
  const sqlite = new Database(path, { readonly: existsSync(`${path}-wal`), fileMustExist: true });
  sqlite.pragma('busy_timeout = 5000');
  sqlite.pragma('query_only = ON');
  sqlite.pragma('trusted_schema = OFF');
  return sqlite;
}
