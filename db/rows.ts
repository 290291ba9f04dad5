/** Writing, finding and changing rows with a statement that is prepared once for each table and set of columns. */
import type Database from 'better-sqlite3';
import { getTableColumns, getTableName } from 'drizzle-orm';
import type { SQLiteColumn, SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Book } from './open.ts';

type Store = (value: unknown) => unknown;

interface Write {
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

function insertOf(book: Book, table: SQLiteTable, names: readonly string[]): Write {
  const columns = columnsOf(table, names);
  const quoted = columns.map(({ name }) => `"${name}"`).join(', ');
  const marks = columns.map(() => '?').join(', ');
  const statement = book.sqlite.prepare(`INSERT INTO "${getTableName(table)}" (${quoted}) VALUES (${marks})`);
  return writeOf(statement, columns);
}

type Row = Record<string, unknown>;
type Cells = readonly unknown[];

interface Select {
  readonly get: (...cells: unknown[]) => Cells | undefined;
  readonly all: (...cells: unknown[]) => Cells[];
  readonly names: readonly string[];
  /** The columns that do not come out of SQLite as they are meant, such as a yes that is kept as 1. */
  readonly other: readonly (readonly [name: string, column: SQLiteColumn])[];
}

interface Find extends Select {
  readonly store: readonly Store[];
}

/** The row whose named columns have these values, or undefined. Without an object mapper between: every entry asks so. */
export function findRow<T extends SQLiteTable>(
  book: Book,
  table: T,
  where: Partial<T['$inferSelect']>,
): T['$inferSelect'] | undefined {
  const names = Object.keys(where);
  const find = book.prepared(`find ${getTableName(table)} ${names.join(' ')}`, () => findOf(book, table, names));
  const cells = find.get(...Object.values(where).map((value, at) => find.store[at]?.(value)));
  return cells && rowOf(find, cells);
}

function findOf(book: Book, table: SQLiteTable, names: readonly string[]): Find {
  const columns = columnsOf(table, names);
  const where = columns.map(({ name }) => `"${name}" = ?`).join(' AND ');
  return { ...selectOf(book, table, where), store: storeOf(columns) };
}

/** Which rows: a condition of SQL with its order, of which one statement is kept under its name. */
interface Which {
  readonly name: string;
  /** What stands behind WHERE, with a `?` for each cell. */
  readonly where: string;
  readonly cells: readonly (number | string | null)[];
}

/** The rows of a table for which a condition holds, in the order that it says. */
export function findRows<T extends SQLiteTable>(book: Book, table: T, which: Which): T['$inferSelect'][] {
  const name = `rows of ${getTableName(table)}: ${which.name}`;
  const select = book.prepared(name, () => selectOf(book, table, which.where));
  return select.all(...which.cells).map((cells) => rowOf(select, cells));
}

function selectOf(book: Book, table: SQLiteTable, where: string): Select {
  const all = Object.entries(getTableColumns(table)) as [string, SQLiteColumn][];
  const wanted = all.map(([, { name }]) => `"${name}"`).join(', ');
  const statement = book.sqlite.prepare(`SELECT ${wanted} FROM "${getTableName(table)}" WHERE ${where}`).raw();
  return {
    get: (...cells) => statement.get(...cells) as Cells | undefined,
    all: (...cells) => statement.all(...cells) as Cells[],
    names: all.map(([name]) => name),
    other: all.filter(([, { dataType }]) => dataType !== 'number' && dataType !== 'string'),
  };
}

/** SQLite's own rows of named columns take half as long again to make as cells that are named here. */
function rowOf({ names, other }: Select, cells: Cells): Row {
  const row: Row = {};
  for (let at = 0; at < names.length; at += 1) row[names[at] ?? ''] = cells[at];
  for (const [name, column] of other) {
    if (row[name] !== null) row[name] = column.mapFromDriverValue(row[name]);
  }
  return row;
}

/** Changes the named columns of the rows for which a condition holds. */
export function updateRows<T extends SQLiteTable>(
  book: Book,
  { table, row }: { readonly table: T; readonly row: Partial<T['$inferInsert']> },
  { name, where, cells }: Which,
): void {
  const names = Object.keys(row);
  const update = book.prepared(`update ${getTableName(table)} ${name}: ${names.join(' ')}`, () => {
    const columns = columnsOf(table, names);
    const set = columns.map((column) => `"${column.name}" = ?`).join(', ');
    const statement = book.sqlite.prepare(`UPDATE "${getTableName(table)}" SET ${set} WHERE ${where}`);
    return writeOf(statement, columns);
  });
  const values = Object.values(row).map((value, at) => (value === null ? null : update.store[at]?.(value)));
  update.run(...values, ...cells);
}

function writeOf(statement: Database.Statement, columns: readonly SQLiteColumn[]): Write {
  return { run: (...cells) => statement.run(...cells), store: storeOf(columns) };
}

function storeOf(columns: readonly SQLiteColumn[]): Store[] {
  return columns.map((column) => (value) => column.mapToDriverValue(value));
}

function columnsOf(table: SQLiteTable, names: readonly string[]): SQLiteColumn[] {
  const all = getTableColumns(table) as Record<string, SQLiteColumn>;
  return names.map((name) => {
    const column = all[name];
    if (!column) throw new RangeError(`${getTableName(table)} has no column ${name}.`);
    return column;
  });
}
