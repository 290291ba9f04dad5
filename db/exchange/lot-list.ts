/**
 * A list of lots as somebody pastes it from a spreadsheet or brings it as a file: the columns of `lots.csv` and behind
 * them the export tags, with or without their heading, between tabs or commas. Only its form is read here; what the
 * cells say, `lots.add` judges.
 */

import { tagRegions } from '#db/tag/queries.ts';
import { type LotNo, parseLotNo } from '#lib/lot/number.ts';
import { groupBy } from '#lib/result/text.ts';
import { decideTags, type TagFault } from '#lib/tag/check.ts';
import { parseTag } from '#lib/tag/number.ts';
import { doubledTagLines } from './check-rows.ts';
import { csvRecords } from './csv.ts';
import type { Row, Rows } from './read-table.ts';
import { type RowOf, TABLES } from './tables.ts';

/** Former numbers come with a whole sale only: a list is of lots that nobody divided yet. */
type LotColumn = Exclude<keyof (typeof TABLES)['lots']['columns'], 'former_numbers'>;
const LOT_COLUMNS = Object.keys(TABLES.lots.columns).filter((name): name is LotColumn => name !== 'former_numbers');

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

type TagLine = { readonly line: number; readonly tag: string };

/** A lot of a folder with its export tags, and what would hold it back. */
export interface LotWithTags {
  readonly lot: Row<RowOf<'lots'>>;
  readonly goods: Row<RowOf<'goods'>>;
  readonly tags: readonly TagLine[];
  /** True where a tag of the lot was reported already, so that their number says nothing. */
  readonly tagsInDoubt: boolean;
  /** The region whose State the tags show, where that is a partner's and not the sale's; else empty. */
  readonly takenIn: string;
  readonly faults: readonly TagFault[];
}

/** Every lot whose number and goods could be read. Without a region of the sale, no State is checked. */
export function lotsWithTags(saleRegion: string | undefined, rows: Rows): LotWithTags[] {
  const goods = new Map(rows.goods.map((row) => [row.cells.goods, row]));
  const regionOf = new Map(rows.people.map(({ cells }) => [cells.person_id, cells.licence_region]));
  const partners = groupBy(rows.sellers, ({ cells }) => cells.seller_no);
  const tagRows = groupBy(rows.tags, ({ cells }) => cells.lot_no);
  const doubled = doubledTagLines(rows);
  return rows.lots.flatMap((lot) => {
    const { lot_no, seller_no, count } = lot.cells;
    const kind = goods.get(lot.cells.goods);
    if (lot_no === undefined || kind === undefined) return [];
    const own = tagRows.get(lot_no) ?? [];
    // The first row of each tag counts; a repeated or unreadable one was reported.
    const tags = own.flatMap(({ line, cells: { tag } }): TagLine[] =>
      tag === undefined || doubled.has(line) ? [] : [{ line, tag }],
    );
    const behind = seller_no === undefined ? [] : (partners.get(seller_no) ?? []);
    const licences = behind.flatMap(({ cells }) => regionOf.get(cells.person_id) || []);
    const takenIn = takenInOf(tags, saleRegion, licences);
    const regions = saleRegion === undefined ? [] : tagRegions(saleRegion, takenIn);
    const faults = faultsOf({ lotNo: lot_no, count, goods: kind.cells, tags, regions });
    return [{ lot, goods: kind, tags, tagsInDoubt: tags.length < own.length, takenIn, faults }];
  });
}

/** Where the pieces were taken when every tag shows the State of a partner's licence, and it is not the sale's. */
function takenInOf(tags: readonly TagLine[], saleRegion: string | undefined, licences: readonly string[]): string {
  const states = new Set(tags.map(({ tag }) => stateOf(tag)).filter((state) => state !== null));
  const [state, ...others] = states;
  if (saleRegion === undefined || state === undefined || others.length > 0) return '';
  if (regionShows(saleRegion, state)) return '';
  return licences.find((region) => regionShows(region, state)) ?? '';
}

function stateOf(tag: string): string | null {
  const parsed = parseTag(tag);
  return parsed.ok ? parsed.value.state : null;
}

function regionShows(region: string, state: string): boolean {
  return region.slice(region.indexOf('-') + 1) === state;
}

interface Judged {
  readonly lotNo: LotNo;
  /** Undefined where it could not be read: then only each tag by itself is judged. */
  readonly count: number | null | undefined;
  readonly goods: Row<RowOf<'goods'>>['cells'];
  readonly tags: readonly TagLine[];
  readonly regions: readonly string[];
}

function faultsOf({ lotNo, count, goods, tags, regions }: Judged): TagFault[] {
  const { name = '', export_tag: exportTag, tag_species_code: tagSpeciesCode = '' } = goods;
  if (exportTag === undefined) return [];
  return decideTags({
    goods: { name, exportTag, tagSpeciesCode },
    lot: { lotNo, count: count ?? null },
    tags: tags.map(({ tag }) => ({ tag, condition: 'intact' })),
    regions,
    pieceCountRequired: count !== undefined,
  });
}
