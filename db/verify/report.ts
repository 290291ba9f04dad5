/** What `verify` says of a book, as it is printed in JSON. */
import type { LogHead } from '#db/book/log.ts';

export interface VerifyReport {
  readonly ok: boolean;
  readonly file: string;
  /** The first log line that is wrong or whose rows are, or null where none can be named. */
  readonly firstBadLine: number | null;
  /** Everything that is wrong, one sentence each. */
  readonly problems: readonly string[];
  /** Whether the file could be opened as a book at all; where not, the other parts were not looked at. */
  readonly opened: Part;
  readonly integrity: Part & { readonly messages: readonly string[] };
  readonly foreignKeys: Part & { readonly broken: readonly BrokenReference[] };
  readonly chain: ChainReport;
  readonly replay: ReplayReport;
  readonly money: Part & { readonly sales: number; readonly problems: readonly string[] };
}

interface Part {
  readonly ok: boolean;
  readonly message: string;
}

interface BrokenReference {
  readonly table: string;
  readonly row: number | null;
  readonly refersTo: string;
}

export interface ChainReport extends Part {
  /** How many lines were found good before the first bad one. */
  readonly lines: number;
  /** The last good line: what the sheets and backups print. */
  readonly head: LogHead;
  readonly firstBadLine: number | null;
}

export interface ReplayReport extends Part {
  /** How many lines were given again. */
  readonly lines: number;
  /** How many rows and lines were found to differ; replay stops at the first line that does. */
  readonly differences: number;
  /** The difference that the earliest log line is answerable for. */
  readonly difference: Difference | null;
}

export type Difference = LineDifference | TableDifference | SchemaDifference;

/** A log line that gives another result, another hash, or none. */
export interface LineDifference {
  readonly kind: 'line';
  readonly line: number;
  readonly message: string;
}

/** A row that is not what the log makes it. */
export interface TableDifference {
  readonly kind: 'table';
  readonly table: string;
  /** The primary key; parts of a longer one are joined by a slash. */
  readonly id: string;
  /** The column that differs, or null where the whole row is missing on one side. */
  readonly column: string | null;
  readonly book: Cell;
  readonly replay: Cell;
  /** The log line that wrote the row last, or null for the rows of the program's own table of migrations. */
  readonly line: number | null;
  readonly message: string;
}

/** A table, index or trigger that is not what this version of the program makes. */
interface SchemaDifference {
  readonly kind: 'schema';
  readonly name: string;
  readonly message: string;
}

/** A stored value as JSON can carry it: whole numbers beyond 2^53 and bytes as text. */
export type Cell = string | number | null;
