import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { type BetterSQLite3Database, drizzle } from 'drizzle-orm/better-sqlite3';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';
import * as z from 'zod';
import {
  checksumFile,
  checksumLine,
  FromNewerVersion,
  removeCopy,
  syncFolderOf,
  syncToDisk,
  UpdateFailed,
  writeToDisk,
} from './files.ts';

/**
 * Applies the migrations that the book does not have yet, all or none; `before` is called first where anything stands
 * in the book, and nothing is changed where it throws.
 * A book that is already up to date is not written to: a refused import must leave the file as it was.
 * @throws FromNewerVersion where the book has more migrations than this program; UpdateFailed where one of them fails.
 */
export function bringUpToDate<S extends Record<string, unknown>>(
  sqlite: Database.Database,
  db: BetterSQLite3Database<S>,
  before: (applied: number) => void = () => undefined,
): void {
  const known = knownCount();
  const applied = appliedCount(sqlite);
  if (applied > known) {
    throw new FromNewerVersion('This book was written by a newer Peltry. Open it with that version or a later one.');
  }
  if (applied === known) return;
  const isEmpty = sqlite.prepare('SELECT count(*) FROM sqlite_master').pluck().get() === 0;
  if (isEmpty && sqlite.memory) return void sqlite.exec(emptyBook());
  if (!isEmpty) before(applied);
  try {
    migrate(db, { migrationsFolder: migrations.folder() });
  } catch (fault) {
    throw new UpdateFailed(
      `This book could not be brought up to date, and is as it was before. Go on with the program's version that wrote it, and keep this sentence: ${reasonOf(fault)}`,
    );
  }
}

/** What SQLite said; drizzle's own words around it repeat the whole statement. */
function reasonOf(fault: unknown): string {
  const first = fault instanceof Error && fault.cause ? fault.cause : fault;
  return first instanceof Error ? first.message : String(first);
}

const emptyBooks = new Map<string, string>();

/**
 * What all migrations make of nothing, as one script: worked out once, because they take four times as long one by one,
 * and every replay and most tests begin with an empty book in memory. A file goes through its migrations.
 */
function emptyBook(): string {
  const migrationsFolder = migrations.folder();
  const made = emptyBooks.get(migrationsFolder);
  if (made !== undefined) return made;
  const sqlite = new Database(':memory:');
  migrate(drizzle(sqlite), { migrationsFolder });
  const itself = `PRAGMA application_id = ${sqlite.pragma('application_id', { simple: true })}`;
  const script = [itself, ...schemaOf(sqlite), ...rowsOf(sqlite)].join(';\n');
  sqlite.close();
  emptyBooks.set(migrationsFolder, script);
  return script;
}

/** SQLite makes what bears its own name by itself. */
function schemaOf(sqlite: Database.Database): string[] {
  const made =
    "SELECT sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER BY rowid";
  return sqlite.prepare<[], string>(made).pluck().all();
}

/** Only the list of the migrations themselves has rows in an empty book. */
function rowsOf(sqlite: Database.Database): string[] {
  const rows = sqlite.prepare<[], { hash: string; at: number }>(
    'SELECT quote(hash) AS hash, created_at AS at FROM __drizzle_migrations ORDER BY created_at',
  );
  return rows
    .all()
    .map(({ hash, at }) => `INSERT INTO __drizzle_migrations (hash, created_at) VALUES (${hash}, ${at})`);
}

/** How many migrations a book has had. */
export function appliedCount(sqlite: Database.Database): number {
  return appliedOf(sqlite).length;
}

/** How many migrations this program knows. */
export function knownCount(): number {
  return known().length;
}

/** Whether a book had a migration that is none of this program's: a count alone would not tell two drafts apart. */
export function hasForeignMigration(sqlite: Database.Database): boolean {
  const ours = new Set(known());
  return appliedOf(sqlite).some((made) => !ours.has(made));
}

/** When each migration that a book has had was made, in milliseconds. */
function appliedOf(sqlite: Database.Database): number[] {
  const table = sqlite.prepare("SELECT 1 FROM sqlite_master WHERE name = '__drizzle_migrations'").get();
  return table ? sqlite.prepare<[], number>('SELECT created_at FROM __drizzle_migrations').pluck().all() : [];
}

const journal = z.object({ entries: z.array(z.object({ when: z.number() })) });

function known(): number[] {
  const text = readFileSync(join(migrations.folder(), 'meta', '_journal.json'), 'utf8');
  return journal.parse(JSON.parse(text)).entries.map(({ when }) => when);
}

/** The migrations of this program. It is an object so that a test can let the program be of a later version. */
export const migrations = {
  /** The server's bundle moves this module, so the folder is also looked for from where the program was started. */
  folder(): string {
    const fromHere = resolve(import.meta.dirname ?? '.', 'migrations');
    return existsSync(fromHere) ? fromHere : resolve(process.cwd(), 'db', 'migrations');
  },
};

/**
 * Copies a book of an older version to a file beside it before its tables are changed, with its SHA-256. Gives the
 * copy's path. It waits for the disk, because nothing may be changed before the copy is there.
 * @throws UpdateFailed where no copy could be made.
 */
export function copyBeforeUpdate(sqlite: Database.Database, file: string, applied: number): string {
  const copy = freeName(file, applied);
  try {
    sqlite.prepare('VACUUM INTO ?').run(copy);
    syncToDisk(copy);
    const sum = createHash('sha256').update(readFileSync(copy)).digest('hex');
    writeToDisk(checksumFile(copy), checksumLine(sum, copy));
    syncFolderOf(copy);
    return copy;
  } catch (fault) {
    tidyAway(copy);
    const why = fault instanceof Error ? fault.message : String(fault);
    throw new UpdateFailed(
      `${file} was written by an older Peltry, and no backup could be made before bringing it up to date (${why}). Nothing was changed. Make room beside it, and start again.`,
    );
  }
}

/** Such as `lantern-before-update-4.book`: four updates were in it. An earlier try keeps its copy. */
function freeName(file: string, applied: number): string {
  const stem = join(dirname(file), `${basename(file).replace(/\.book$/, '')}-before-update-${applied}`);
  let name = `${stem}.book`;
  for (let number = 2; existsSync(name); number += 1) name = `${stem}-${number}.book`;
  return name;
}

/** What cannot even be taken away must not hide why it could not be made. */
function tidyAway(copy: string): void {
  try {
    removeCopy(copy);
  } catch {
    // The first fault is the one to tell.
  }
}
