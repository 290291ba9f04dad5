/**
 * The text of a CSV file as RFC 4180 has it: CRLF, and quotes where a cell needs them. A cell that a spreadsheet would
 * take for a formula is written as it is, because what is read back must be what was written.
 */
import { stringify } from 'csv-stringify/sync';
import type { Table } from './tables.ts';

export function csvText(header: readonly string[], rows: readonly (readonly string[])[]): string {
  // A lone CR or LF within a cell needs quotes too, which csv-stringify adds for the record delimiter only.
  return stringify([header, ...rows] as string[][], { record_delimiter: 'windows', quoted_match: /[\r\n]/ });
}

/** The file of a table, with its columns in their order; a later one only where a row has something to say there. */
export function tableText({ columns, later = [] }: Pick<Table, 'columns' | 'later'>, rows: readonly object[]): string {
  const texts = Object.entries(columns).map(([column, { write }]) => ({
    column,
    cells: rows.map((row) => write((row as Readonly<Record<string, never>>)[column] as never)),
  }));
  const used = texts.filter(({ column, cells }) => !later.includes(column) || cells.some((cell) => cell !== ''));
  return csvText(
    used.map(({ column }) => column),
    rows.map((_, at) => used.map(({ cells }) => cells[at] ?? '')),
  );
}
