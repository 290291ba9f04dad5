/**
 * A list of lots as somebody pastes it from a spreadsheet or brings it as a file: the columns of `lots.csv` and behind
 * them the export tags, with or without their heading, between tabs or commas. Only its form is read here; what the
 * cells say, `lots.add` judges.
 */
import { parseLotNo } from '#lib/lot-number.ts';
import { csvRecords } from './csv-records.ts';
import { TABLES } from './tables.ts';

type LotColumn = keyof (typeof TABLES)['lots']['columns'];
const LOT_COLUMNS = Object.keys(TABLES.lots.columns) as LotColumn[];

/** The folder has a file of its own for the tags; a list says them in one cell, as at the form. */
export type ListColumn = LotColumn | 'tags';
export const LIST_COLUMNS: readonly ListColumn[] = listColumns(LOT_COLUMNS, []);
/** The columns of a list without a heading. A later column has one, so that it moves no other. */
const UNHEADED = listColumns(LOT_COLUMNS, TABLES.lots.later ?? []);

export function listColumns<C extends string>(columns: readonly C[], without: readonly string[]): (C | 'tags')[] {
  return [...columns.filter((column) => !without.includes(column)), 'tags'];
}

export interface ListRow {
  /** The line of the list on which the row begins; the first is 1. */
  readonly line: number;
  readonly cells: Readonly<Partial<Record<ListColumn, string>>>;
}

export interface ListProblem {
  readonly line: number;
  /** The column of the cell, or null where the whole row is meant. */
  readonly column: ListColumn | null;
  readonly message: string;
}

export interface LotList {
  /** The columns in the order of the list. */
  readonly columns: readonly ListColumn[];
  readonly rows: readonly ListRow[];
  /** What is wrong with its form: a heading nobody knows, quotes that do not close, a row that is too long. */
  readonly problems: readonly ListProblem[];
}

export function readLotList(text: string): LotList {
  const bare = text.replace(/^\ufeff/, '').replace(/\r\n?/g, '\n');
  const [firstLine = ''] = bare.split('\n').filter((line) => line.trim() !== '');
  const { records, broken } = csvRecords(bare, firstLine.includes('\t') ? '\t' : ',');
  const filled = records
    .map(({ line, cells }) => ({ line, cells: cells.map((cell) => cell.trim()) }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''));
  const unclosed = broken.map(
    ({ line }): ListProblem => ({ line, column: null, message: 'Close the quotation marks of this row.' }),
  );
  const [first] = filled;
  if (!first) return { columns: [], rows: [], problems: unclosed };
  const heading = first.cells.map(columnCalled);
  const named = heading.filter((column) => column !== undefined).length;
  const hasHeading = named >= 2 || named === first.cells.length;
  const columns = hasHeading ? heading : columnsWithout(first.cells);
  const body = hasHeading ? filled.slice(1) : filled;
  return {
    columns: [...new Set(columns.filter((column) => column !== undefined))],
    rows: body.map(({ line, cells }) => ({ line, cells: cellsOf(columns, cells) })),
    problems: [
      ...(hasHeading ? headingProblems(first, heading) : []),
      ...body.flatMap(({ line, cells }) => tooLong(line, columns, cells)),
      ...unclosed,
    ],
  };
}

/** What people write above a column when they do not have our names at hand. */
const ALSO: Readonly<Record<string, ListColumn>> = {
  ...{ lot: 'lot_no', seller: 'seller_no', pieces: 'count' },
  ...{ tag: 'tags', export_tag: 'tags', export_tags: 'tags' },
};

function columnCalled(cell: string): ListColumn | undefined {
  const word = cell.toLowerCase().replace(/[\s-]+/g, '_');
  return LIST_COLUMNS.find((column) => column === word) ?? (Object.hasOwn(ALSO, word) ? ALSO[word] : undefined);
}

/** Without a heading the order is that of the file; a list made at home may leave out both numbers and begin with the goods. */
function columnsWithout([first = '']: readonly string[]): readonly ListColumn[] {
  const numbered = first === '' || parseLotNo(first).ok;
  return numbered ? UNHEADED : UNHEADED.slice(UNHEADED.indexOf('goods'));
}

type Columns = readonly (ListColumn | undefined)[];

function cellsOf(columns: Columns, cells: readonly string[]): ListRow['cells'] {
  return Object.fromEntries(
    columns.flatMap((column, at) => (column === undefined ? [] : [[column, cells[at] ?? ''] as const])),
  );
}

function headingProblems({ line, cells }: { line: number; cells: readonly string[] }, columns: Columns): ListProblem[] {
  const problems = cells.flatMap((cell, at): ListProblem[] => {
    const column = columns[at];
    if (column === undefined) {
      const message = `There is no column called “${cell}”: the columns are ${LIST_COLUMNS.join(', ')}.`;
      return cell === '' ? [] : [{ line, column: null, message }];
    }
    if (columns.indexOf(column) === at) return [];
    return [{ line, column, message: `The column ${column} is there twice: take one out.` }];
  });
  if (columns.includes('goods')) return problems;
  return [...problems, { line, column: null, message: 'The list has no column “goods”: add it.' }];
}

function tooLong(line: number, columns: Columns, cells: readonly string[]): ListProblem[] {
  const beyond = cells.slice(columns.length).filter((cell) => cell !== '');
  const message = `This row has ${cells.length} cells, and the list has ${columns.length} columns: take out ${beyond.join(', ')}.`;
  return beyond.length === 0 ? [] : [{ line, column: null, message }];
}
