/** Writes a row into any table with drizzle, by one insert that is prepared once for each table. */
import { eq, getTableColumns, getTableName, type SQL, sql } from 'drizzle-orm';
import type { SQLiteColumn, SQLiteInsertValue, SQLiteTable, SQLiteUpdateSetSource } from 'drizzle-orm/sqlite-core';
import { type Book, statement } from './open.ts';

type Insert = (row: object) => number;

/** Building an insert anew for each row takes several times as long as running it, and an import has 100,000 rows. */
const inserts = statement(() => new Map<SQLiteTable, Insert>());

/** Inserts one row and gives its id. A column that is not named gets the table's default. */
export function insertRow<T extends SQLiteTable>(book: Book, table: T, row: T['$inferInsert']): number {
  const ofTable = inserts(book);
  let insert = ofTable.get(table);
  if (!insert) {
    insert = prepareInsert(book, table);
    ofTable.set(table, insert);
  }
  return insert(row);
}

function prepareInsert<T extends SQLiteTable>({ db }: Book, table: T): Insert {
  const columns: [string, SQLiteColumn][] = Object.entries(getTableColumns(table));
  for (const [, column] of columns) assertTakesNull(table, column);
  const placeholders = Object.fromEntries(columns.map(([name]) => [name, sql.placeholder(name)]));
  // That every column of the table has a placeholder cannot be said in the type.
  const prepared = db
    .insert(table)
    .values(placeholders as SQLiteInsertValue<T>)
    .prepare();
  const defaults = Object.fromEntries(columns.map(([name, column]) => [name, column.default ?? null]));
  // A number: the book's connection was never asked for big integers.
  return (row) => prepared.run({ ...defaults, ...row }).lastInsertRowid as number;
}

/** drizzle hands a null to the encoder of a placeholder's column, which would store it as false or as a JSON text. */
function assertTakesNull(table: SQLiteTable, column: SQLiteColumn): void {
  if (column.notNull || column.mapToDriverValue(null) === null) return;
  throw new RangeError(
    `${getTableName(table)}.${column.name} could not be told from an empty one: declare it not null.`,
  );
}

/** What a command says of a row that it adds: its id is given to it, and it bears the line of the command. */
export type NewRow<T extends SQLiteTable> = Omit<T['$inferInsert'], 'id' | 'line'>;

/** The book, and the line of the command that writes into it. */
interface Writing {
  readonly book: Book;
  readonly line: number;
}

/** Adds a row, which bears the line of the command, and gives its id. */
export function addRow<T extends SQLiteTable>({ book, line }: Writing, table: T, row: NewRow<T>): number {
  return insertRow(book, table, { ...row, line });
}

/** Changes the row of this id, which then bears the line of the command. */
export function updateRow<T extends SQLiteTable & { readonly id: SQLiteColumn }>(
  { book, line }: Writing,
  table: T,
  id: number,
  changed: Partial<T['$inferInsert']>,
): void {
  // That every table with an id also has a line cannot be said in the type.
  const set = { ...changed, line } as SQLiteUpdateSetSource<T>;
  book.db.update(table).set(set).where(eq(table.id, id)).run();
}

/** What a prepared update sets: these columns, each given by name when it runs. drizzle's type takes only SQL there. */
export function givenLater<K extends string>(columns: Readonly<Record<K, SQLiteColumn>>): Record<K, SQL> {
  const named: [string, SQLiteColumn][] = Object.entries(columns);
  const given = named.map(([name, column]) => [name, sql`${sql.param(sql.placeholder(name), column)}`]);
  return Object.fromEntries(given) as Record<K, SQL>;
}
