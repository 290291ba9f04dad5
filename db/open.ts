/**
 * Opens the book: one SQLite file, with the settings under which an acknowledged entry survives a pulled plug.
 */
import { resolve } from 'node:path';
import Database from 'better-sqlite3';
import { type BetterSQLite3Database, drizzle } from 'drizzle-orm/better-sqlite3';
import { assertBookFile } from './check-file.ts';
import { copyBeforeUpdate } from './copy-before-update.ts';
import { bringUpToDate } from './migrate.ts';
import * as schema from './schema/index.ts';

export type BookDatabase = BetterSQLite3Database<typeof schema>;

/** The one open book of this process. */
export interface Book {
  readonly file: string;
  readonly sqlite: Database.Database;
  readonly db: BookDatabase;
  /** To be removed: the queries that still name their statements by text become `statement()` of db/statement.ts. */
  prepared<T>(name: string, build: (db: BookDatabase) => T): T;
  close(): void;
}

export { APPLICATION_ID } from './check-file.ts';
export { CannotOpenBook, DamagedBook, FromNewerVersion, NotABook, ReadOnlyBook, UpdateFailed } from './faults.ts';

interface OpenOptions {
  /** Makes the file where there is none; otherwise a missing file is a fault. */
  readonly create?: boolean;
}

/**
 * Opens or makes a book and brings its tables up to date.
 * @throws CannotOpenBook (NotABook, DamagedBook, FromNewerVersion, ReadOnlyBook, UpdateFailed) with the file unchanged.
 */
export function openBook(file: string, options: OpenOptions = {}): Book {
  const path = resolve(file);
  assertBookFile(path, options.create === true);
  return prepareBook(path, new Database(path));
}

/** A book to be read over a connection that somebody else opened and closes. */
export function bookToRead(file: string, sqlite: Database.Database): Book {
  const db = drizzle(sqlite, { schema });
  return { file, sqlite, db, prepared: statementCache(db), close: () => sqlite.close() };
}

/** A book that lives in memory only: what replay and some tests write into. */
export function openBookInMemory(): Book {
  return prepareBook(':memory:', new Database(':memory:'));
}

function prepareBook(file: string, sqlite: Database.Database): Book {
  try {
    configure(sqlite);
    const db = drizzle(sqlite, { schema });
    bringUpToDate(sqlite, db, (applied) => sqlite.memory || copyBeforeUpdate(sqlite, file, applied));
    assertDurable(sqlite);
    return { file, sqlite, db, prepared: statementCache(db), close: () => sqlite.close() };
  } catch (fault) {
    sqlite.close();
    throw fault;
  }
}

function configure(sqlite: Database.Database): void {
  sqlite.pragma('busy_timeout = 5000');
  sqlite.pragma('journal_mode = WAL');
  sqlite.pragma('synchronous = FULL');
  sqlite.pragma('foreign_keys = ON');
  sqlite.pragma('trusted_schema = OFF');
  // What is removed is overwritten in the file, and not only forgotten by its tables.
  sqlite.pragma('secure_delete = ON');
  // Without it REPLACE takes a row away and the trigger that forbids this is never asked.
  sqlite.pragma('recursive_triggers = ON');
}

/** The settings are read back after a transaction, because some only fall away at the first one. */
function assertDurable(sqlite: Database.Database): void {
  sqlite.exec('BEGIN IMMEDIATE; COMMIT');
  const mode = sqlite.pragma('journal_mode', { simple: true });
  const settings = { mode, synchronous: pragma(sqlite, 'synchronous'), foreignKeys: pragma(sqlite, 'foreign_keys') };
  const modeIsRight = mode === 'wal' || mode === 'memory';
  if (!modeIsRight || settings.synchronous !== 2 || settings.foreignKeys !== 1) {
    throw new Error(`The book's safety settings did not hold: ${JSON.stringify(settings)}`);
  }
}

function pragma(sqlite: Database.Database, name: string): unknown {
  return sqlite.pragma(name, { simple: true });
}

function statementCache(db: BookDatabase): Book['prepared'] {
  const kept = new Map<string, unknown>();
  return <T>(name: string, build: (db: BookDatabase) => T): T => {
    if (!kept.has(name)) kept.set(name, build(db));
    return kept.get(name) as T;
  };
}
