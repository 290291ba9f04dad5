import Database from 'better-sqlite3';

// Bytes 18 and 19 of an SQLite file say whether it is written through a write-ahead log, which memory has none of.
const WRITE_AHEAD = [18, 19] as const;
const ROLLBACK = 1;

/** Opens the bytes of an SQLite file in memory, with nothing on the disk. The bytes are no longer the caller's. */
export function openInMemory(bytes: Buffer): Database.Database {
  for (const place of WRITE_AHEAD) bytes[place] = ROLLBACK;
  return new Database(bytes);
}
