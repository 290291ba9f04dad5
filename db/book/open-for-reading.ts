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
  const sqlite = alone && wantsToWrite(onDisk) ? readInstead(path, onDisk) : onDisk;
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

function readInstead(path: string, onDisk: Database.Database): Database.Database {
  onDisk.close();
  return openInMemory(readFileSync(path));
}

// Bytes 18 and 19 of an SQLite file say whether it is written through a write-ahead log, which memory has none of.
const WRITE_AHEAD = [18, 19] as const;
const ROLLBACK = 1;

/** Opens the bytes of an SQLite file in memory, with nothing on the disk. The bytes are no longer the caller's. */
export function openInMemory(bytes: Buffer): Database.Database {
  for (const place of WRITE_AHEAD) bytes[place] = ROLLBACK;
  return new Database(bytes);
}
