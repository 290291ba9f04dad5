/** Reads the cells of a folder's rows: the second layer. A cell that cannot be read is reported and left undefined. */
import { refuse } from '#lib/result.ts';
import type { Report } from './problem.ts';
import type { RawFolder, RawRow, RawTable } from './raw.ts';
import { type RowOf, TABLE_NAMES, type Table, type TableName, tableOf } from './tables.ts';

type Loose<T> = { readonly [K in keyof T]: T[K] | undefined };

export interface Row<T> {
  readonly line: number;
  readonly cells: Loose<T>;
}

export type Rows = { readonly [N in TableName]: readonly Row<RowOf<N>>[] };
/** The same where every cell could be read. */
export type WholeRows = { readonly [N in TableName]: readonly RowOf<N>[] };

export function readRows(tables: RawFolder['tables'], report: Report): Rows {
  const read = TABLE_NAMES.map((name) => [name, rowsOf(tableOf(name), tables[name], report)]);
  return Object.fromEntries(read) as unknown as Rows;
}

function rowsOf(table: Table, raw: RawTable, report: Report): Row<Record<string, unknown>>[] {
  return raw.rows.map((row) => ({ line: row.line, cells: cellsOf(table, { row, lacking: raw.lacking }, report) }));
}

interface RowOfText {
  readonly row: RawRow;
  readonly lacking: ReadonlySet<string>;
}

function cellsOf(table: Table, { row, lacking }: RowOfText, report: Report): Record<string, unknown> {
  const cells: Record<string, unknown> = {};
  for (const [column, kind] of Object.entries(table.columns)) {
    cells[column] = undefined;
    if (lacking.has(column) || row.unread?.has(column)) continue;
    const text = row.cells[column] ?? '';
    const read = kind.read(text);
    if (read.ok) cells[column] = read.value;
    // A damaged row was reported as a whole.
    else if (row.unread === undefined) report({ file: table.file, line: row.line, column }, withText(read, text));
  }
  return cells;
}

/** Names what stands in the cell, because the person looks at another program while reading this. */
function withText(refusal: Parameters<Report>[1], text: string): Parameters<Report>[1] {
  if (text === '') return refusal;
  const shown = text.length > 40 ? `${text.slice(0, 40)}…` : text;
  return refuse(refusal.code, `${refusal.message} It says “${shown}”.`);
}

/** The rows of a folder without problems. Throws where a cell was not read: the problems were not looked at. */
export function wholeRows(rows: Rows): WholeRows {
  const whole = TABLE_NAMES.map((name) => [name, rows[name].map(({ cells }) => wholeCells(cells))]);
  return Object.fromEntries(whole) as unknown as WholeRows;
}

function wholeCells(cells: object): object {
  const hole = Object.entries(cells).find(([, value]) => value === undefined);
  if (hole !== undefined) throw new TypeError(`the cell ${hole[0]} was not read`);
  return cells;
}
