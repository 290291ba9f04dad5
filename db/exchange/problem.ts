/** What is wrong in an exchange folder, with the place where it is to be put right. */
import { allOf, type Refusal, type RefusalCode, refuse } from '#lib/result/result.ts';
import { SALE_FILE, TABLE_NAMES, TABLES, type TableName } from './tables.ts';

interface Place {
  readonly file: string;
  /** As RFC 4180 counts: the header is line 1, and a line break in a quoted cell begins a further line. */
  readonly line: number;
  /** The column, the dotted key in `sale.json`, or `-` where the whole line or file is meant. */
  readonly column: string;
}

export interface Problem extends Place {
  readonly code: RefusalCode;
  /** A sentence that says what to do. */
  readonly message: string;
}

/** Takes down one problem. */
export type Report = (place: Place, refusal: Pick<Refusal, 'code' | 'message'>) => void;

/** A list of problems that grows, and the function that adds to it. */
export function problemList(): { problems: Problem[]; report: Report } {
  const problems: Problem[] = [];
  const report: Report = (place, { code, message }) =>
    problems.push({ ...place, column: onOneLine(place.column), code, message: onOneLine(message) });
  return { problems, report };
}

/** What is quoted from a cell may hold line breaks, and a problem is told in one line. */
function onOneLine(text: string): string {
  return text.replace(/\s+/g, ' ');
}

const FILES = [SALE_FILE, ...TABLE_NAMES.map((name) => TABLES[name].file)];

/** By file in the order of the exchange folder, then by line. */
export function sortProblems(problems: readonly Problem[]): Problem[] {
  return [...problems].sort((a, b) => FILES.indexOf(a.file) - FILES.indexOf(b.file) || a.line - b.line);
}

/** `lots.csv:5 minimum: Use at most two digits behind the point: 12.50.` */
export function problemLine({ file, line, column, message }: Problem): string {
  return `${file}:${line} ${column}: ${message}`;
}

/** Everything that a command refused, a line each, with its place where it has one. */
export function refusalLines(refusal: Refusal): string[] {
  return [refusal, ...(refusal.also ?? [])].map(({ field, message }) =>
    field === undefined ? message : `${field}: ${message}`,
  );
}

/** The first problem with all others behind it, as a command refuses; null where there is none. */
export function refusalOfProblems(problems: readonly Problem[]): Refusal | null {
  const refusals = sortProblems(problems).map(({ file, line, column, code, message }) =>
    refuse(code, message, `${file}:${line} ${column}`),
  );
  return allOf(refusals) ?? null;
}

/** A row of an exchange folder as text, before any cell is read. */
export interface RawRow {
  /** The line on which the row begins. */
  readonly line: number;
  readonly cells: Readonly<Record<string, string>>;
  /** Columns of a damaged row whose cells are not to be read; each was reported already. */
  readonly unread?: ReadonlySet<string>;
}

export interface RawTable {
  readonly rows: readonly RawRow[];
  /** True where the folder has no such file. */
  readonly absent: boolean;
  /** Columns that the file lacks though it must have them, which was reported already. */
  readonly lacking: ReadonlySet<string>;
}

export interface RawFolder {
  /** The value of `sale.json`, or undefined where it could not be read, which was reported already. */
  readonly sale: unknown;
  /** The line of each dotted key of `sale.json`. */
  readonly saleLines: ReadonlyMap<string, number>;
  readonly tables: Readonly<Record<TableName, RawTable>>;
}
