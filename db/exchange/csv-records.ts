/**
 * The records of a CSV file with the line each begins on.
 * csv-parse judges the quotes; where it stops at a broken line, reading goes on with the next one, so that one slip
 * does not hide the others. Lines are counted here, because csv-parse counts a CRLF in a quoted cell as two.
 */
import { type CsvError, type Options, parse } from 'csv-parse/sync';

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
  let at = { byte: 0, line: 1, between };
  while (at.byte < bytes.length) {
    const stop = readOn(bytes, at, records);
    if (stop === null) break;
    const end = lineEnd(bytes, stop.byte);
    const line = bytes.subarray(stop.byte, end).toString('utf8').trimEnd();
    broken.push({ line: stop.line, text: line, code: stop.code });
    at = { byte: end, line: stop.line + 1, between };
  }
  return { records, broken };
}

interface Position {
  readonly byte: number;
  readonly line: number;
}

interface From extends Position {
  readonly between: Between;
}

/** Reads records from a position until the end, or until a broken one, whose beginning it gives. */
function readOn(bytes: Buffer, from: From, records: CsvRecord[]): (Position & { code: string }) | null {
  const rest = bytes.subarray(from.byte);
  let { byte, line } = from;
  const options: Options = {
    delimiter: from.between,
    relax_quotes: from.between === '\t',
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
