/**
 * The plain price list: one CSV file of what pieces brought in seasons of which no sale is left. Read like the files
 * of an exchange folder, and refused like them: every problem as `file:line column: what to do`.
 */
import type { NewRow } from '#db/book/rows.ts';
import type { priceListRow } from '#db/schema/index.ts';
import { recordOf } from '#lib/field/fields.ts';
import { KIND } from '#lib/field/kinds.ts';
import { type Result, refuse } from '#lib/result/result.ts';
import { type LoggedRow, loggedRow } from './against-book.ts';
import { type Problem, problemList, type RawRow, type RawTable, type Report } from './problem.ts';
import { readTable } from './read-table.ts';

const COLUMNS = {
  season: KIND.shortName,
  goods: KIND.shortName,
  section: KIND.words,
  size: KIND.words,
  grade: KIND.words,
  count: KIND.count,
  price: KIND.money({ allowZero: false }),
};

type ColumnName = keyof typeof COLUMNS;
export const PRICE_LIST_COLUMNS = Object.keys(COLUMNS) as readonly ColumnName[];

/** One row of a list: so many pieces at a price each, with the line it began on. */
export interface PlacedRow extends Required<NewRow<typeof priceListRow>> {
  readonly at: number;
}

/** Reads the file's form only: what its cells say is judged by {@link checkPriceList}. */
export function readPriceList(file: string, bytes: Uint8Array): { raw: RawTable; problems: readonly Problem[] } {
  const { problems, report } = problemList();
  const required = ['season', 'goods', 'count', 'price'];
  const table = { file, columns: COLUMNS, required, keys: [], mustBeThere: true };
  return { raw: readTable(table, bytes, report), problems };
}

/** The rows as the log keeps them: the text of the cells with their lines. */
export function rowsToGive({ rows }: RawTable): LoggedRow[] {
  return rows.map(loggedRow);
}

/** Reads every cell; a row with a problem is left out of `rows`. */
export function checkPriceList(file: string, raw: readonly RawRow[], report: Report): PlacedRow[] {
  if (raw.length === 0) report({ file, line: 1, column: '-' }, refuse('missing', 'Add a row: the list has none.'));
  return raw.flatMap((row) => rowOf(file, row, report));
}

function rowOf(file: string, { line, cells, unread }: RawRow, report: Report): PlacedRow[] {
  let whole = true;
  function cell<T>(column: ColumnName, read: (text: string) => Result<T>) {
    if (unread?.has(column)) whole = false;
    const result = read(cells[column] ?? '');
    if (result.ok) return result.value;
    whole = false;
    if (!unread?.has(column)) report({ file, line, column }, result);
    return undefined;
  }
  const names = ['season', 'goods', 'section', 'size', 'grade'] as const;
  const texts = recordOf(names, (column) => cell(column, COLUMNS[column].read) ?? '');
  const count = cell('count', COLUMNS.count.read);
  const priceCents = cell('price', COLUMNS.price.read);
  if (!whole || count === undefined || priceCents === undefined) return [];
  return [{ at: line, ...texts, count, priceCents }];
}
