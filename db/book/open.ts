/**
 * Opens the book: one SQLite file, with the settings under which an acknowledged entry survives a pulled plug.
 */
import { resolve } from 'node:path';
import Database from 'better-sqlite3';
import { eq, type SQL, sql } from 'drizzle-orm';
import { type BetterSQLite3Database, drizzle } from 'drizzle-orm/better-sqlite3';
import type { SQLiteColumn } from 'drizzle-orm/sqlite-core';
import * as schema from '#db/schema/index.ts';
import { assertBookFile } from './check-file.ts';
import { appliedCount, bringUpToDate, copyBeforeUpdate, knownCount } from './migrate.ts';
import { openQuietly } from './open-for-reading.ts';

export { APPLICATION_ID } from './check-file.ts';
export { CannotOpenBook, DamagedBook, FromNewerVersion, NotABook, ReadOnlyBook, UpdateFailed } from './files.ts';

type BookDatabase = BetterSQLite3Database<typeof schema>;

/** The one open book of this process. */
export interface Book {
  readonly file: string;
  readonly sqlite: Database.Database;
  readonly db: BookDatabase;
  close(): void;
}

/**
 * Opens a book and brings its tables up to date; `create` makes the file where there is none, which otherwise is a fault.
 * @throws CannotOpenBook (NotABook, DamagedBook, FromNewerVersion, ReadOnlyBook, UpdateFailed) with the file unchanged.
 */
export function openBook(file: string, { create = false }: { readonly create?: boolean } = {}): Book {
  const path = resolve(file);
  assertBookFile(path, create);
  return prepareBook(path, new Database(path));
}

/** A book to be read over a connection that somebody else opened and closes. */
export function bookToRead(file: string, sqlite: Database.Database): Book {
  const db = drizzle(sqlite, { schema });
  return { file, sqlite, db, close: () => sqlite.close() };
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
    return { file, sqlite, db, close: () => sqlite.close() };
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

/**
 * Builds something once for each open book, and keeps it as long as the book is open. The function returned is its own
 * key, so two statements can never be confused. For another database than the book: `statement(({ db }: Store) => …)`.
 */
export function statement<S, D extends object = Book>(build: (database: D) => S): (database: D) => S {
  const built = new WeakMap<D, { readonly statement: S }>();
  return (database) => {
    let found = built.get(database);
    if (!found) {
      found = { statement: build(database) };
      built.set(database, found);
    }
    return found.statement;
  };
}

/** A drizzle query, prepared once for each open book: `const findSale = query(({ db }) => db.select().from(sale)…)`. */
export function query<P>(build: (book: Book) => { prepare(): P }): (book: Book) => P {
  return statement((book) => build(book).prepare());
}

/** The condition that a column equals a value that is given under this name when the query runs. */
export function equals(column: SQLiteColumn, name: string): SQL {
  return eq(column, sql.placeholder(name));
}

/**
 * Opens a book that cannot be written, to show what is in it.
 * @returns `older` where its tables are those of another version, to which this program's questions cannot be put.
 * @throws where SQLite cannot read the file.
 */
export function openToRead(file: string): Book | 'older' {
  const sqlite = openQuietly(file);
  try {
    if (appliedCount(sqlite) === knownCount()) return bookToRead(file, sqlite);
  } catch (fault) {
    sqlite.close();
    throw fault;
  }
  sqlite.close();
  return 'older';
}
