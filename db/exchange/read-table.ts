/** Reads one CSV file of the folder into rows of text, and reports whatever is wrong with its form. */
import { refuse } from '#lib/result/result.ts';
import { type BrokenLine, type CsvRecord, csvRecords, type Decoded, decode, NOT_UTF8, REPLACEMENT } from './csv.ts';
import type { RawFolder, RawRow, RawTable, Report } from './problem.ts';
import { exchangeTable, type RowOf, TABLE_NAMES, type Table, type TableName } from './tables.ts';

/** Everything that a row is read with. */
interface Reading {
  readonly table: Table;
  readonly header: readonly string[];
  readonly damaged: boolean;
  readonly report: Report;
}

const NOTHING: ReadonlySet<string> = new Set();

/** `bytes` is null where the folder has no such file. */
export function readTable(table: Table, bytes: Uint8Array | null, report: Report): RawTable {
  if (bytes === null) return absentTable(table, report);
  const decoded = decode(bytes, (refusal) => report({ file: table.file, line: 1, column: '-' }, refusal));
  return decoded === null ? unreadable(table) : tableOf(table, decoded, report);
}

function absentTable(table: Table, report: Report): RawTable {
  if (!table.mustBeThere) return { rows: [], absent: true, lacking: NOTHING };
  const refusal = refuse('missing', 'Add this file: an exchange folder must have it.');
  report({ file: table.file, line: 1, column: '-' }, refusal);
  return unreadable(table);
}

/** A table about which nothing is known: rows that refer to it are not reported for it. */
function unreadable(table: Table): RawTable {
  return { rows: [], absent: false, lacking: new Set(Object.keys(table.columns)) };
}

function tableOf(table: Table, { text, damaged }: Decoded, report: Report): RawTable {
  const { records, broken } = csvRecords(text);
  const [head, ...body] = records;
  const first = broken[0];
  if (head === undefined || (first !== undefined && first.line < head.line)) {
    const say = `Begin the file with its header: ${Object.keys(table.columns).join(',')}.`;
    report({ file: table.file, line: first?.line ?? 1, column: '-' }, refuse('missing', say));
    return unreadable(table);
  }
  const header = head.cells;
  const lacking = checkHeader(table, head, report);
  const reading = { table, header, damaged, report };
  const rows = [
    ...body.flatMap((record) => rowOf(reading, record)),
    ...broken.map((line) => brokenRow(reading, line)),
  ].sort((a, b) => a.line - b.line);
  return { rows, absent: false, lacking };
}

function checkHeader(table: Table, { line, cells }: CsvRecord, report: Report): ReadonlySet<string> {
  const { file, columns, required } = table;
  for (const [at, column] of cells.entries()) {
    if (cells.indexOf(column) < at) {
      report({ file, line, column }, refuse('taken', `Delete one: the column “${column}” is there twice.`));
    } else if (!Object.hasOwn(columns, column)) {
      const say = `Delete or rename the column “${column}”: this file has ${Object.keys(columns).join(', ')}.`;
      report({ file, line, column: column === '' ? '-' : column }, refuse('unknown', say));
    }
  }
  const lacking = required.filter((column) => !cells.includes(column));
  for (const column of lacking) report({ file, line, column }, refuse('missing', `Add the column “${column}”.`));
  return new Set(lacking);
}

function rowOf(reading: Reading, { line, cells }: CsvRecord): RawRow[] {
  const { table, header, report } = reading;
  const place = { file: table.file, line, column: '-' };
  if (cells.every((cell) => cell === '')) {
    report(place, refuse('malformed', 'Delete this row: it is empty.'));
    return [];
  }
  if (cells.length !== header.length) {
    const say = `Give this row as many cells as the header: it has ${cells.length}, the header has ${header.length}.`;
    report(place, refuse('malformed', say));
    return [damagedRow(reading, line, cells)];
  }
  const named = cellsOf(reading, cells);
  return [reading.damaged ? withoutDamage(reading, { line, cells: named }) : { line, cells: named }];
}

function withoutDamage({ table, report }: Reading, { line, cells }: RawRow): RawRow {
  const unread = Object.keys(cells).filter((column) => cells[column]?.includes(REPLACEMENT));
  for (const column of unread) report({ file: table.file, line, column }, NOT_UTF8);
  return { line, cells, unread: new Set(unread) };
}

function brokenRow(reading: Reading, { line, text, code }: BrokenLine): RawRow {
  const say =
    code === 'CSV_QUOTE_NOT_CLOSED'
      ? 'Close the quotes: a cell begins with a quotation mark and does not end with one.'
      : 'Put the whole cell between quotation marks, and write each mark within it twice.';
  reading.report({ file: reading.table.file, line, column: '-' }, refuse('malformed', say));
  return damagedRow(reading, line, text.split(','));
}

/** Of a damaged row only what others refer to it by is read, so that they are not reported for it. */
function damagedRow(reading: Reading, line: number, cells: readonly string[]): RawRow {
  const { columns, keys } = reading.table;
  const unread = new Set(Object.keys(columns).filter((column) => !keys.includes(column)));
  return { line, cells: cellsOf(reading, cells), unread };
}

function cellsOf({ table, header }: Reading, cells: readonly string[]): Record<string, string> {
  const pairs = header.flatMap((column, at): [string, string][] => {
    const cell = cells[at];
    return cell === undefined || !Object.hasOwn(table.columns, column) ? [] : [[column, cell]];
  });
  return Object.fromEntries(pairs);
}

type Loose<T> = { readonly [K in keyof T]: T[K] | undefined };

export interface Row<T> {
  readonly line: number;
  readonly cells: Loose<T>;
}

export type Rows = { readonly [N in TableName]: readonly Row<RowOf<N>>[] };
/** The same where every cell could be read. */
export type WholeRows = { readonly [N in TableName]: readonly RowOf<N>[] };

export function readRows(tables: RawFolder['tables'], report: Report): Rows {
  const read = TABLE_NAMES.map((name) => [name, rowsOf(exchangeTable(name), tables[name], report)]);
  return Object.fromEntries(read) as unknown as Rows;
}

function rowsOf(table: Table, { rows, lacking }: RawTable, report: Report): Row<Record<string, unknown>>[] {
  return rows.map((row) => ({ line: row.line, cells: readCells(table, row, lacking, report) }));
}

/** A cell that cannot be read is reported and left undefined. */
function readCells(table: Table, row: RawRow, lacking: ReadonlySet<string>, report: Report): Record<string, unknown> {
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
