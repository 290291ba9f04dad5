/** Writing a row with a statement that is prepared once for each table and set of columns. */
import { getTableName, sql } from 'drizzle-orm';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Book } from './open.ts';

/** Inserts one row and gives its id. */
export function insertRow<T extends SQLiteTable>(book: Book, table: T, row: T['$inferInsert']): number {
  const columns = Object.keys(row);
  const insert = book.prepared(`insert ${getTableName(table)} ${columns.join(' ')}`, (db) => {
    const values = Object.fromEntries(columns.map((column) => [column, sql.placeholder(column)]));
    return db
      .insert(table)
      .values(values as T['$inferInsert'])
      .prepare();
  });
  return insert.run(row as Record<string, unknown>).lastInsertRowid as number;
}
