import { existsSync, readFileSync } from 'node:fs';
import Database from 'better-sqlite3';

/**
 * Opens an SQLite file to be read only, and leaves nothing beside it.
 * A connection for reading alone would leave empty `-wal` and `-shm` files behind; one that could write clears them
 * away when it closes. Where a `-wal` stands already somebody has the book open, or was killed: then it is theirs.
 */
export function openQuietly(path: string): Database.Database {
  const alone = !existsSync(`${path}-wal`);
  const onDisk = new Database(path, { readonly: !alone, fileMustExist: true });
  const inMemory = alone && wantsToWrite(onDisk);
  if (inMemory) onDisk.close();
  const sqlite = inMemory ? openInMemory(readFileSync(path)) : onDisk;
  sqlite.pragma('busy_timeout = 5000');
  sqlite.pragma('query_only = ON');
  sqlite.pragma('trusted_schema = OFF');
  return sqlite;
}

/** A file with a write-ahead log cannot even be read where nothing may be written beside it, as on a locked stick. */
function wantsToWrite(sqlite: Database.Database): boolean {
  try {
    sqlite.pragma('schema_version');
    return false;
  } catch (fault) {
    const code = fault instanceof Database.SqliteError ? fault.code : '';
    return code.startsWith('SQLITE_READONLY') || code.startsWith('SQLITE_CANTOPEN');
  }
}

/** Opens the bytes of an SQLite file in memory, with nothing on the disk. The bytes are no longer the caller's. */
export function openInMemory(bytes: Buffer): Database.Database {
  // Bytes 18 and 19 say whether the file is written through a write-ahead log (2), which memory has none of, or not (1).
  bytes[18] = 1;
  bytes[19] = 1;
  return new Database(bytes);
}
