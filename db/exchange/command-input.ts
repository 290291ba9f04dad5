/** A folder as the log keeps it: the text of its cells with their lines, so that a replay needs nothing else. */
import { z } from 'zod';
import type { RawFolder, RawTable } from './raw.ts';
import { TABLE_NAMES, TABLES, type TableName } from './tables.ts';

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

const tables = Object.fromEntries(TABLE_NAMES.map((name) => [name, rowsInput(name)])) as Record<
  TableName,
  ReturnType<typeof rowsInput>
>;

export const folderInput = z.strictObject({
  sale: z.record(z.string().max(100), z.unknown(), { error: 'Give the sale as sale.json has it.' }),
  ...tables,
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
  const tablesOf = TABLE_NAMES.map((name): [TableName, RawTable] => {
    const rows = input[name].map(([line, cells]) => ({ line, cells: cells as Readonly<Record<string, string>> }));
    return [name, { rows, absent: rows.length === 0, lacking: new Set() }];
  });
  return {
    sale: input.sale,
    saleLines: new Map(),
    tables: Object.fromEntries(tablesOf) as RawFolder['tables'],
  };
}
