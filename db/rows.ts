/** Writing and finding a row with a statement that is prepared once for each table and set of columns. */
import { getTableColumns, getTableName } from 'drizzle-orm';
import type { SQLiteColumn, SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Book } from './open.ts';

type Store = (value: unknown) => unknown;

interface Insert {
  readonly run: (...cells: unknown[]) => { readonly lastInsertRowid: number | bigint };
  /** How each column stores what it is given, such as a yes as 1 and a list as its JSON. */
  readonly store: readonly Store[];
}

/** Inserts one row and gives its id. A column that is not named gets what the table has for it. */
export function insertRow<T extends SQLiteTable>(book: Book, table: T, row: T['$inferInsert']): number {
  const columns = Object.keys(row);
  const insert = book.prepared(`insert ${getTableName(table)} ${columns.join(' ')}`, () =>
    insertOf(book, table, columns),
  );
  const cells = Object.values(row).map((value, at) => (value === null ? null : insert.store[at]?.(value)));
  return insert.run(...cells).lastInsertRowid as number;
}

function insertOf(book: Book, table: SQLiteTable, names: readonly string[]): Insert {
  const columns = columnsOf(table, names);
  const quoted = columns.map(({ name }) => `"${name}"`).join(', ');
  const marks = columns.map(() => '?').join(', ');
  const statement = book.sqlite.prepare(`INSERT INTO "${getTableName(table)}" (${quoted}) VALUES (${marks})`);
  const store = columns.map((column) => (value: unknown) => column.mapToDriverValue(value));
  return { run: (...cells) => statement.run(...cells), store };
}

interface Find {
  readonly get: (...cells: unknown[]) => Record<string, unknown> | undefined;
  readonly store: readonly Store[];
  /** The columns that do not come out of SQLite as they are meant, such as a yes that is kept as 1. */
  readonly other: readonly (readonly [name: string, column: SQLiteColumn])[];
}

/** The row whose named columns have these values, or undefined. Without an object mapper between: every entry asks so. */
export function findRow<T extends SQLiteTable>(
  book: Book,
  table: T,
  where: Partial<T['$inferSelect']>,
): T['$inferSelect'] | undefined {
  const names = Object.keys(where);
  const find = book.prepared(`find ${getTableName(table)} ${names.join(' ')}`, () => findOf(book, table, names));
  const row = find.get(...Object.values(where).map((value, at) => find.store[at]?.(value)));
  if (!row) return undefined;
  for (const [name, column] of find.other) {
    if (row[name] !== null) row[name] = column.mapFromDriverValue(row[name]);
  }
  return row;
}

function findOf(book: Book, table: SQLiteTable, names: readonly string[]): Find {
  const all = Object.entries(getTableColumns(table)) as [string, SQLiteColumn][];
  const wanted = all.map(([name, column]) => `"${column.name}" AS "${name}"`).join(', ');
  const columns = columnsOf(table, names);
  const where = columns.map(({ name }) => `"${name}" = ?`).join(' AND ');
  const text = `SELECT ${wanted} FROM "${getTableName(table)}" WHERE ${where}`;
  const statement = book.sqlite.prepare<unknown[], Record<string, unknown>>(text);
  return {
    get: (...cells) => statement.get(...cells),
    store: columns.map((column) => (value: unknown) => column.mapToDriverValue(value)),
    other: all.filter(([, { dataType }]) => dataType !== 'number' && dataType !== 'string'),
  };
}

function columnsOf(table: SQLiteTable, names: readonly string[]): SQLiteColumn[] {
  const all = getTableColumns(table) as Record<string, SQLiteColumn>;
  return names.map((name) => {
    const column = all[name];
    if (!column) throw new RangeError(`${getTableName(table)} has no column ${name}.`);
    return column;
  });
}
