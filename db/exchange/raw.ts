/** An exchange folder as text: what the files say, before any cell is read. */
import type { TableName } from './tables.ts';

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
