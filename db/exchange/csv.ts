/**
 * The records of a CSV file with the line each begins on.
 * csv-parse judges the quotes; where it stops at a broken line, reading goes on with the next one, so that one slip
 * does not hide the others. Lines are counted here, because csv-parse counts a CRLF in a quoted cell as two.
 */
import { type CsvError, type Options, parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { refuse } from '#lib/result/result.ts';
import { withoutFormulaOrFigure } from '#lib/result/text.ts';
import type { Report } from './problem.ts';
import type { Table } from './tables.ts';

export interface CsvRecord {
  readonly line: number;
  readonly cells: readonly string[];
}

export interface BrokenLine {
  readonly line: number;
  readonly text: string;
  /** csv-parse's name of what is wrong with the quotes. */
  readonly code: string;
}

export interface CsvRead {
  readonly records: readonly CsvRecord[];
  readonly broken: readonly BrokenLine[];
}

const LF = 0x0a;
const CR = 0x0d;

/** What stands between two cells; a spreadsheet's own copy has tabs, and quotation marks that are only inches. */
export type Between = ',' | '\t';

export function csvRecords(text: string, between: Between = ','): CsvRead {
  const bytes = Buffer.from(text, 'utf8');
  const records: CsvRecord[] = [];
  const broken: BrokenLine[] = [];
  let at: Position = { byte: 0, line: 1 };
  while (at.byte < bytes.length) {
    const stop = readRecords(bytes, at, between, records);
    if (stop === null) break;
    const end = lineEnd(bytes, stop.byte);
    const line = bytes.subarray(stop.byte, end).toString('utf8').trimEnd();
    broken.push({ line: stop.line, text: line, code: stop.code });
    at = { byte: end, line: stop.line + 1 };
  }
  return { records, broken };
}

interface Position {
  readonly byte: number;
  readonly line: number;
}

/** Reads records from a position until the end, or until a broken one, whose beginning it gives. */
function readRecords(
  bytes: Buffer,
  from: Position,
  between: Between,
  records: CsvRecord[],
): (Position & { code: string }) | null {
  const rest = bytes.subarray(from.byte);
  let { byte, line } = from;
  const options: Options = {
    delimiter: between,
    relax_quotes: between === '\t',
    record_delimiter: ['\r\n', '\n'],
    relax_column_count: true,
    skip_empty_lines: true,
    on_record(cells: string[], info) {
      const begin = pastBlankLines(bytes, { byte, line });
      records.push({ line: begin.line, cells });
      byte = from.byte + info.bytes;
      line = begin.line + newlines(bytes, begin.byte, byte);
      return null;
    },
  };
  try {
    parse(rest, options);
    return null;
  } catch (fault) {
    return { ...pastBlankLines(bytes, { byte, line }), code: csvCode(fault) };
  }
}

function csvCode(fault: unknown): string {
  if (fault instanceof Error && 'code' in fault) return (fault as CsvError).code;
  throw fault;
}

function pastBlankLines(bytes: Buffer, { byte, line }: Position): Position {
  let at = byte;
  let lines = line;
  for (;;) {
    const next = bytes[at] === CR && bytes[at + 1] === LF ? at + 1 : at;
    if (bytes[next] !== LF) return { byte: at, line: lines };
    at = next + 1;
    lines += 1;
  }
}

function newlines(bytes: Buffer, from: number, to: number): number {
  let lines = 0;
  for (let at = bytes.indexOf(LF, from); at !== -1 && at < to; at = bytes.indexOf(LF, at + 1)) lines += 1;
  return lines;
}

function lineEnd(bytes: Buffer, from: number): number {
  const end = bytes.indexOf(LF, from);
  return end === -1 ? bytes.length : end + 1;
}

/**
 * The text of a CSV file as RFC 4180 has it: CRLF, and quotes where a cell needs them. A cell that a spreadsheet would
 * take for a formula is written as it is, because what is read back must be what was written.
 */
export function csvText(header: readonly string[], rows: readonly (readonly string[])[]): string {
  // A lone CR or LF within a cell needs quotes too, which csv-stringify adds for the record delimiter only.
  return stringify([header, ...rows] as string[][], { record_delimiter: 'windows', quoted_match: /[\r\n]/ });
}

/** The same for a spreadsheet: a text that it would take for a formula gets an apostrophe before it; figures stay as they are. */
export function spreadsheetText(header: readonly string[], rows: readonly (readonly string[])[]): string {
  return csvText(
    header,
    rows.map((row) => row.map(withoutFormulaOrFigure)),
  );
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

export interface Decoded {
  /** Without a byte-order mark; a byte that is not UTF-8 has become U+FFFD. */
  readonly text: string;
  readonly damaged: boolean;
}

export const REPLACEMENT = '\ufffd';
export const NOT_UTF8 = refuse('malformed', 'Type this anew and save the file as UTF-8: it holds bytes that are not.');

/** Decodes a file, or reports that it is in another encoding altogether and gives null. */
export function decode(bytes: Uint8Array, report: (refusal: Parameters<Report>[1]) => void): Decoded | null {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    report(refuse('malformed', 'Save the file as UTF-8: this is UTF-16.'));
    return null;
  }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), damaged: false };
  } catch {
    return { text: new TextDecoder('utf-8').decode(bytes), damaged: true };
  }
}
