/** What is wrong with a folder only because of what the book holds already. */
import * as z from 'zod';
import type { Book } from '#db/book/open.ts';
import { isPlanned } from '#db/sale/queries.ts';
import { recordOf } from '#lib/field/fields.ts';
import { wentHome } from '#lib/outcome/words.ts';
import { refuse } from '#lib/result/result.ts';
import type { Sale } from '#lib/sale/facts.ts';
import { type CheckedFolder, tagUse } from './check-folder.ts';
import { doubledTagLines } from './check-rows.ts';
import { type Problem, problemList, type RawFolder, type RawTable, type Report } from './problem.ts';
import { saleLine } from './read-sale.ts';
import type { Rows } from './read-table.ts';
import { SALE_FILE, TABLE_NAMES, TABLES, type TableName } from './tables.ts';

export function checkAgainstBook(book: Book, raw: RawFolder, { sale, rows }: CheckedFolder): Problem[] {
  if (sale === undefined) return [];
  const { problems, report } = problemList();
  if (isPlanned(book, sale)) {
    // Every tag of a sale that is there already would be in the book too: that is one problem, not many.
    const say = `Nothing was imported: the sale “${sale.name}” of ${sale.heldOn} is already in the book. If this is another sale, give it another name.`;
    report({ file: SALE_FILE, line: saleLine(raw.saleLines, 'name'), column: 'name' }, refuse('already', say));
  } else {
    checkTagUse(book, sale, rows, report);
  }
  return problems;
}

function checkTagUse(book: Book, sale: Sale, rows: Rows, report: Report): void {
  const doubled = doubledTagLines(rows);
  const home = lotsGoneHome(rows);
  for (const { line, cells } of rows.tags) {
    const { lot_no, tag } = cells;
    if (lot_no === undefined || tag === undefined || doubled.has(line)) continue;
    const use = tagUse(book, tag, sale.heldOn, home.has(lot_no));
    if (!use.ok) report({ file: 'tags.csv', line, column: 'tag' }, use);
  }
}

/** The numbers of the lots whose fur went home with its seller. */
export function lotsGoneHome({ results }: Pick<Rows, 'results'>): ReadonlySet<string> {
  const home = results.filter(({ cells: { outcome: kind, fate } }) => kind !== undefined && wentHome({ kind, fate }));
  return new Set(home.flatMap(({ cells }) => (cells.lot_no === undefined ? [] : [cells.lot_no])));
}

/** One row: the line it began on, and its cells by column. An empty cell is left out. */
export type LoggedRow = readonly [line: number, cells: Readonly<Record<string, string>>];

const MOST_ROWS = 200_000;

function rowsInput(name: TableName) {
  const cells = z.partialRecord(z.enum(Object.keys(TABLES[name].columns)), z.string().max(2000));
  return z
    .array(z.tuple([z.int().min(1), cells]))
    .max(MOST_ROWS)
    .default([]);
}

export const folderInput = z.strictObject({
  sale: z.record(z.string().max(100), z.unknown(), { error: 'Give the sale as sale.json has it.' }),
  ...recordOf(TABLE_NAMES, rowsInput),
});

export type FolderInput = z.output<typeof folderInput>;

type GivenFolder = { readonly sale: Record<string, unknown> } & Partial<Record<TableName, readonly LoggedRow[]>>;

export function inputOfFolder({ sale, tables: raw }: RawFolder): GivenFolder {
  const used = TABLE_NAMES.filter((name) => raw[name].rows.length > 0);
  return {
    sale: sale as Record<string, unknown>,
    ...Object.fromEntries(used.map((name) => [name, raw[name].rows.map(loggedRow)])),
  };
}

export function loggedRow({ line, cells }: RawTable['rows'][number]): LoggedRow {
  return [line, Object.fromEntries(Object.entries(cells).filter(([, text]) => text !== ''))];
}

export function folderOfInput(input: FolderInput): RawFolder {
  const tables = recordOf(TABLE_NAMES, (name): RawTable => {
    const rows = input[name].map(([line, cells]) => ({ line, cells: cells as Readonly<Record<string, string>> }));
    return { rows, absent: rows.length === 0, lacking: new Set() };
  });
  return { sale: input.sale, saleLines: new Map(), tables };
}
