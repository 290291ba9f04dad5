/**
 * A book as an older version of the program left it. The program has one migration until 1.0, so here it becomes a
 * later version for the rest of a test: the older one knew neither closings nor the time zone, and an update adds both.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';
import { onTestFinished, vi } from 'vitest';
import { migrations } from '#db/migrate.ts';
import { openHall } from '#tests/support/hall.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

const BREAK = '--> statement-breakpoint\n';
const TAKEN_OUT = ['DROP TABLE closing;', 'ALTER TABLE association DROP COLUMN time_zone;'];
const ADDED = "ALTER TABLE association ADD time_zone text DEFAULT '' NOT NULL;";

/** Makes the book with a few lots in it; returns its file. */
export function olderBook(): string {
  const [source, older] = [tempFile(), tempFile()];
  const { book, saleId, must } = openHall({ file: source });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '13' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
  const closing = "SELECT sql || ';' FROM sqlite_master WHERE tbl_name = 'closing' AND sql IS NOT NULL ORDER BY rowid";
  const additions = [ADDED, ...book.sqlite.prepare<[], string>(closing).pluck().all()];
  book.close();
  const [first] = ownMigrations();
  const was = [first, ...TAKEN_OUT].join(BREAK);
  fillOlder(older, source, folderOf([was]));
  const later = folderOf([was, additions.join(BREAK)]);
  const spy = vi.spyOn(migrations, 'folder').mockReturnValue(later);
  onTestFinished(() => spy.mockRestore());
  return older;
}

/** The texts of the program's own migrations. */
function ownMigrations(): string[] {
  const folder = migrations.folder();
  const journal = JSON.parse(readFileSync(join(folder, 'meta', '_journal.json'), 'utf8')) as Journal;
  return journal.entries.map(({ tag }) => readFileSync(join(folder, `${tag}.sql`), 'utf8'));
}

interface Journal {
  readonly entries: readonly { readonly tag: string }[];
}

/** A folder of migrations as drizzle-kit leaves it, without the snapshots that only itself reads. */
function folderOf(texts: readonly string[]): string {
  const folder = tempFolder('migrations');
  mkdirSync(join(folder, 'meta'));
  const entries = texts.map((_, idx) => ({ idx, version: '6', when: idx + 1, tag: `${idx}`, breakpoints: true }));
  for (const [idx, text] of texts.entries()) writeFileSync(join(folder, `${idx}.sql`), text);
  writeFileSync(join(folder, 'meta', '_journal.json'), JSON.stringify({ version: '7', dialect: 'sqlite', entries }));
  return folder;
}

function fillOlder(older: string, source: string, migrationsFolder: string): void {
  const sqlite = new Database(older);
  migrate(drizzle(sqlite), { migrationsFolder });
  sqlite.pragma('foreign_keys = OFF');
  sqlite.exec(`ATTACH '${source}' AS newer`);
  const tables = sqlite.prepare("SELECT name FROM main.sqlite_master WHERE type = 'table'").pluck().all() as string[];
  for (const table of tables.filter((name) => !name.startsWith('_'))) copyRows(sqlite, table);
  sqlite.close();
}

function copyRows(sqlite: Database.Database, table: string): void {
  const columns = sqlite.prepare('SELECT name FROM pragma_table_info(?)').pluck().all(table) as string[];
  const list = columns.map((name) => `"${name}"`).join(', ');
  sqlite.exec(`INSERT INTO main."${table}" (${list}) SELECT ${list} FROM newer."${table}"`);
}
