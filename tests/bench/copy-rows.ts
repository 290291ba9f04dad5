/** What bare better-sqlite3 needs for the same rows: one prepared insert a table, run once a row. */
import type Database from 'better-sqlite3';

interface TableRows {
  readonly sql: string;
  readonly rows: readonly (readonly unknown[])[];
}

/** Every row of the named tables, or of those behind a row id. The order of tables is that of their references. */
export function rowsToCopy(sqlite: Database.Database, tables: readonly string[], after = 0): TableRows[] {
  return tables.map((table) => {
    const rows = sqlite.prepare(`SELECT * FROM "${table}" WHERE rowid > ? ORDER BY rowid`).raw().all(after);
    const marks = sqlite
      .prepare(`SELECT * FROM "${table}"`)
      .columns()
      .map(() => '?');
    return { sql: `INSERT INTO "${table}" VALUES (${marks.join(', ')})`, rows: rows as unknown[][] };
  });
}

/** Writes them all within one transaction. */
export function insertAll(sqlite: Database.Database, tables: readonly TableRows[]): void {
  sqlite
    .transaction(() => {
      for (const { sql, rows } of tables) {
        const insert = sqlite.prepare(sql);
        for (const row of rows) insert.run(...row);
      }
    })
    .immediate();
}

/** Tables that are filled in the order of their names know nothing of what a trigger asks of another table. */
export function dropTriggers(sqlite: Database.Database): void {
  const names = sqlite.prepare("SELECT name FROM sqlite_master WHERE type = 'trigger'").pluck().all() as string[];
  for (const name of names) sqlite.exec(`DROP TRIGGER "${name}"`);
}

/** The tables that an imported sale fills. */
export const SALE_TABLES = [
  ...['person', 'sale', 'commission_override', 'goods', 'particulars', 'seller', 'partner', 'buyer'],
  ...['lot', 'tag', 'outcome', 'bid', 'charge', 'payment', 'log'],
] as const;
