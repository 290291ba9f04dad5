import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { type BetterSQLite3Database, drizzle } from 'drizzle-orm/better-sqlite3';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';
import { FromNewerVersion, UpdateFailed } from './faults.ts';

/**
 * Applies the migrations that the book does not have yet, all or none; `before` is called first where the book has
 * had some, and nothing is changed where it throws.
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
  if (applied === 0 && sqlite.memory) return void sqlite.exec(emptyBook());
  if (applied > 0) before(applied);
  try {
    migrate(db, { migrationsFolder: migrationsFolder() });
  } catch (fault) {
    const why = fault instanceof Error ? fault.message : String(fault);
    throw new UpdateFailed(
      `This book could not be brought up to date, and is as it was before. Go on with the program's version that wrote it, and keep this sentence: ${why}`,
    );
  }
}

let keptEmpty: string | undefined;

/**
 * What all migrations make of nothing, as one script: worked out once, because they take four times as long one by one,
 * and every replay and most tests begin with an empty book in memory. A file goes through its migrations.
 */
function emptyBook(): string {
  if (keptEmpty !== undefined) return keptEmpty;
  const sqlite = new Database(':memory:');
  migrate(drizzle(sqlite), { migrationsFolder: migrationsFolder() });
  const itself = `PRAGMA application_id = ${sqlite.pragma('application_id', { simple: true })}`;
  keptEmpty = [itself, ...schemaOf(sqlite), ...rowsOf(sqlite)].join(';\n');
  sqlite.close();
  return keptEmpty;
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
  const table = sqlite.prepare("SELECT 1 FROM sqlite_master WHERE name = '__drizzle_migrations'").get();
  if (!table) return 0;
  return sqlite.prepare('SELECT count(*) FROM __drizzle_migrations').pluck().get() as number;
}

/** How many migrations this program knows. */
export function knownCount(): number {
  const file = join(migrationsFolder(), 'meta', '_journal.json');
  const journal = JSON.parse(readFileSync(file, 'utf8')) as { entries: unknown[] };
  return journal.entries.length;
}

/** The server's bundle moves this module, so the folder is looked for from where the program was started. */
function migrationsFolder(): string {
  const fromHere = resolve(import.meta.dirname ?? '.', 'migrations');
  return existsSync(fromHere) ? fromHere : resolve(process.cwd(), 'db', 'migrations');
}
