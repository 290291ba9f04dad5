/** A book as an older version of the program left it: fewer migrations, and the rows that it had columns for. */
import { readFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { openHall } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

/** The migrations of the first version, which knew no more. */
const FIRST = ['0000_ground', '0001_append_only'];
const FOLDER = 'db/migrations';

interface Journal {
  readonly entries: readonly { readonly tag: string; readonly when: number }[];
}

/** Makes the book with a few lots in it; returns its file. */
export function olderBook(): string {
  const [source, older] = [tempFile(), tempFile()];
  const { book, saleId, must } = openHall({ file: source });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '13' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
  book.close();
  const sqlite = new Database(older);
  sqlite.pragma('foreign_keys = OFF');
  for (const tag of FIRST) sqlite.exec(readFileSync(`${FOLDER}/${tag}.sql`, 'utf8'));
  sqlite.exec(`ATTACH '${source}' AS newer`);
  sqlite.exec(
    sqlite.prepare("SELECT sql FROM newer.sqlite_master WHERE name = '__drizzle_migrations'").pluck().get() as string,
  );
  const tables = sqlite.prepare("SELECT name FROM main.sqlite_master WHERE type = 'table'").pluck().all() as string[];
  for (const table of tables.filter((name) => !name.startsWith('_'))) copyRows(sqlite, table);
  const journal = JSON.parse(readFileSync(`${FOLDER}/meta/_journal.json`, 'utf8')) as Journal;
  for (const { when } of journal.entries.filter(({ tag }) => FIRST.includes(tag))) {
    sqlite
      .prepare('INSERT INTO __drizzle_migrations SELECT * FROM newer.__drizzle_migrations WHERE created_at = ?')
      .run(when);
  }
  sqlite.close();
  return older;
}

function copyRows(sqlite: Database.Database, table: string): void {
  const columns = sqlite.prepare('SELECT name FROM pragma_table_info(?)').pluck().all(table) as string[];
  const list = columns.map((name) => `"${name}"`).join(', ');
  sqlite.exec(`INSERT INTO main."${table}" (${list}) SELECT ${list} FROM newer."${table}"`);
}
