/**
 * Which rows of a list go on which page. At every page break the renderer lays out anew all that is still to come, so
 * that a long list in one piece takes time by the square of its length: a thousand lots took a minute. Here each page
 * is given about as much as it holds, guessed on the safe side; what was guessed too short is broken by the renderer.
 */
import { StyleSheet } from '@react-pdf/renderer';
import { type PaperSize, SIDE, SIZES } from '#app/papers/styles.ts';
import { widened } from '#app/papers/widths.ts';
import type { ColumnKind, ListCell, ListPaper, ListTable } from '#lib/paper/list.ts';

/** A table, or a part of one, with the widths of its columns in points; a column without one shares what is left. */
export interface PlacedTable extends ListTable {
  readonly widths: readonly (number | undefined)[];
}

/** The part of the tables that stands on one page. */
export type PageTables = readonly PlacedTable[];

const WIDTHS: Readonly<Record<PaperSize, number>> = { letter: 612 - 2 * SIDE, a4: 595.28 - 2 * SIDE };
const MARGINS = 40 + 48;
const SLACK = 6;

// Heights in points: of the layout's sizes of type with their leading, and of what is around them.
const LINE = 11;
const FINE = 9.2;
const WIDE_LINE = 11.6;
const AROUND_ROW = 5;
const WRITING_ROW = 26;
const TITLE = 20;
const TABLE_HEAD = 21;
const SUM = 18;
const RESULT = 42;
/** A bold letter is at most so much wider. */
const BOLD = 1.13;
/** A table of so few rows is not divided. */
const SHORT = 4;
/** So many rows at the least begin a table at the foot of a page, and go over to the next: one alone looks forgotten. */
const AT_FOOT = 2;
const OVERLEAF = 3;

/** The tables, part by part: one entry for each page. */
export function pagesOfList(sheet: ListPaper, size: PaperSize): PageTables[] {
  const width = WIDTHS[size];
  const room = SIZES[size].height - MARGINS - SLACK;
  const pages: PlacedTable[][] = [[]];
  let left = room - headingHeight(sheet, width);
  for (const one of sheet.tables) {
    const table = { ...one, widths: widthsOf(one, width) };
    const begun = (pages.at(-1)?.length ?? 0) > 0;
    for (const part of partsOf(table, { left, room, width, begun })) {
      if (part.overleaf) pages.push([]);
      pages.at(-1)?.push(part.table);
      left = part.left;
    }
  }
  return pages;
}

interface Place {
  /** What the page still holds, and what an empty one does, in points. */
  readonly left: number;
  readonly room: number;
  readonly width: number;
  /** True where something stands on the page already. */
  readonly begun: boolean;
}

interface Part {
  readonly table: PlacedTable;
  /** True where it begins a page. */
  readonly overleaf: boolean;
  /** What its page holds after it. */
  readonly left: number;
}

/** Divides a table between what is left of a page and the pages after it. A new page begins only after something. */
function partsOf(table: PlacedTable, { left, room, width, begun }: Place): Part[] {
  const heights = rowHeights(table, width);
  const count = heights.length;
  const sum = table.sum === '' ? 0 : SUM;
  const parts: Part[] = [];
  const least = Math.min(count, count <= SHORT ? SHORT : AT_FOOT);
  let overleaf = begun && fitting(heights, { space: left - headHeight(table, width), sum }) < least;
  for (let from = 0; from < count || parts.length === 0; overleaf = true) {
    // Whose rows these are is said again on the page that goes on with them.
    const title = from === 0 || table.title === '' ? table.title : `${table.title}, continued`;
    const part = { ...table, title };
    const space = (overleaf ? room : left) - headHeight(part, width);
    const rest = heights.slice(from);
    const fits = fitting(rest, { space, sum });
    // What is higher than a page is given one, and the renderer breaks it.
    const taken = fits === rest.length ? fits : Math.max(1, Math.min(fits, rest.length - OVERLEAF));
    const ends = from + taken === count;
    parts.push({
      table: { ...part, ...rowsFrom(table, from, taken), ...(ends ? {} : NO_SUM) },
      overleaf,
      left: space - total(rest.slice(0, taken)) - (ends ? sum : 0),
    });
    from += taken;
  }
  return parts;
}

function rowsFrom({ rows, below }: ListTable, from: number, count: number): Pick<ListTable, 'rows' | 'below'> {
  const part = { rows: rows.slice(from, from + count) };
  return below ? { ...part, below: below.slice(from, from + count) } : part;
}

const NO_SUM = { sum: '', sumAmount: '' } as const;

/** How many of the rows have room; the last one comes with the sum under it. */
function fitting(heights: readonly number[], { space, sum }: { space: number; sum: number }): number {
  if (total(heights) + sum <= space) return heights.length;
  let [count, used] = [0, 0];
  while (count < heights.length - 1) {
    used += heights[count] ?? 0;
    if (used > space) break;
    count += 1;
  }
  return count;
}

function total(numbers: readonly number[]): number {
  return numbers.reduce((so, one) => so + one, 0);
}

function headHeight({ title }: ListTable, width: number): number {
  return TABLE_HEAD + (title === '' ? 0 : TITLE - LINE + linesOf(title, { size: 10 * BOLD, room: width }) * LINE);
}

function rowHeights({ columns, rows, below, widths }: PlacedTable, width: number): number[] {
  const kinds = columns.map(({ kind }) => kind);
  const room = roomOf(kinds, { width, widths });
  const least = kinds.includes('blank') ? WRITING_ROW : 0;
  return rows.map((row, at) => {
    const cells = AROUND_ROW + Math.max(...row.map((cell, column) => cellHeight(cell, room[column] ?? width)));
    return Math.max(least, cells) + fineHeight(below?.[at] ?? [], width - BELOW);
  });
}

function cellHeight({ words, fine }: ListCell, room: number): number {
  return linesOf(words, { size: 9, room }) * LINE + fineHeight(fine, room);
}

function fineHeight(lines: readonly string[], room: number): number {
  return total(lines.map((line) => linesOf(line, { size: 7.5, room }))) * FINE;
}

/** The first page's heading, with what is said and signed above the tables. */
function headingHeight(sheet: ListPaper, width: number): number {
  const { association, number, parties, result, opening, signedAtTop } = sheet;
  const top = Math.max(17 + LINE * association.address.length, number ? 76 : 0);
  const party = Math.max(result ? RESULT : 0, ...parties.map(({ sentences }) => 8 + LINE * (1 + sentences.length)));
  const said = total(opening.map((line) => linesOf(line, { size: 9.5, room: width })));
  return top + 36 + party + 6 + said * WIDE_LINE + (signedAtTop ? 44 : 0);
}

// In parts of the size of type: the widest letter of each group in DejaVu Sans Condensed.
const LETTER_WIDTHS = [
  [/[ijlIJ ,./:;|'’]/, 0.3],
  [/[-f()[\]t!r·]/, 0.37],
  [/[sczkLxvyFP]/, 0.54],
  [/[a-z\d]/, 0.57],
  [/[A-Z]/, 0.71],
] as const;
const WIDEST = 0.9;
const WIDE = /[mwMW%@]/;
/** A letter of another script, or with a mark. */
const OTHER = 0.75;
const SPACE = 0.29;

/** At least one: an empty cell keeps its line. Size and room are in points. */
function linesOf(text: string, { size, room }: { size: number; room: number }): number {
  const ems = room / size;
  let [lines, at] = [1, 0];
  for (const word of text.split(' ')) {
    const width = total([...word].map(letterWidth));
    const fits = at === 0 || at + SPACE + width <= ems;
    lines += fits ? 0 : 1;
    // A word that is longer than its column is divided.
    lines += Math.max(0, Math.ceil(width / ems) - 1);
    at = fits && at > 0 ? at + SPACE + width : width;
  }
  return lines;
}

function letterWidth(letter: string): number {
  if (WIDE.test(letter)) return WIDEST;
  return LETTER_WIDTHS.find(([letters]) => letters.test(letter))?.[1] ?? OTHER;
}

interface Measures {
  /** In points; a column without it shares what is left. */
  readonly width?: number;
  /** Its share of what is left. */
  readonly flex?: number;
  readonly marginLeft?: number;
  readonly paddingLeft?: number;
  readonly paddingRight?: number;
}

const MEASURES = {
  lot: { width: 42, paddingRight: 4 },
  number: { width: 38, paddingRight: 6 },
  goods: { flex: 1, paddingRight: 6 },
  quantity: { width: 72, paddingRight: 6 },
  price: { width: 78, paddingRight: 6 },
  money: { width: 70, paddingLeft: 6 },
  figure: { width: 50 },
  words: { flex: 1.4, paddingRight: 6 },
  // “30 September 2026” in one line.
  date: { width: 102, paddingRight: 6 },
  tick: { width: 40, paddingLeft: 3 },
  blank: { width: 56, marginLeft: 6 },
} as const satisfies Readonly<Record<ColumnKind, Measures>>;

export const COLUMNS = StyleSheet.create({
  lot: { ...MEASURES.lot, fontWeight: 700 },
  number: { ...MEASURES.number, textAlign: 'right' },
  goods: MEASURES.goods,
  quantity: MEASURES.quantity,
  price: { ...MEASURES.price, textAlign: 'right' },
  money: { ...MEASURES.money, textAlign: 'right' },
  figure: { ...MEASURES.figure, textAlign: 'right' },
  words: MEASURES.words,
  date: MEASURES.date,
  tick: MEASURES.tick,
  blank: { ...MEASURES.blank, height: 21, borderWidth: 0.5 },
});

const RIGHT: readonly ColumnKind[] = ['number', 'price', 'money', 'figure'];
const LEFT: readonly ColumnKind[] = ['goods', 'words', 'quantity', 'date'];
/** What keeps words from the figure that ends where they begin. */
const APART = StyleSheet.create({ words: { paddingLeft: 8 } });

const isApart = (kinds: readonly ColumnKind[], at: number) =>
  RIGHT.some((kind) => kind === kinds[at - 1]) && LEFT.some((kind) => kind === kinds[at]);

/** The style of a column's words beside its kind's own. */
export function apartIn(kinds: readonly ColumnKind[], at: number) {
  return isApart(kinds, at) ? APART.words : {};
}

/** Small lines under a row begin where its goods do. */
export const BELOW = MEASURES.lot.width;

const FITTED: readonly ColumnKind[] = ['money', 'price', 'figure'];
/** Where there are columns of words, they keep so much of the line. */
const WORDS_KEEP = 150;

/** The same on every page of a table: it is worked out of all its rows. */
function widthsOf({ columns, rows }: ListTable, width: number): (number | undefined)[] {
  const measures = columns.map(({ kind }): Measures & { readonly kind: ColumnKind } => ({ kind, ...MEASURES[kind] }));
  const fitted = measures.flatMap(({ kind, width: least = 0 }, at) =>
    FITTED.includes(kind) ? [{ at, least, figures: rows.map((row) => row[at]?.words ?? '') }] : [],
  );
  const others = measures.map(({ kind, width: own = 0, marginLeft = 0 }) =>
    FITTED.includes(kind) ? marginLeft : own + marginLeft,
  );
  const keep = measures.some(({ flex }) => flex !== undefined) ? WORDS_KEEP : 0;
  const wide = widened(fitted, { size: 9, apart: PADDED, room: width - keep - total(others) });
  const widths = new Map(fitted.map(({ at }, place) => [at, wide[place]]));
  return measures.map(({ width: own }, at) => widths.get(at) ?? own);
}

/** What of a column of figures is padding. */
export const PADDED = 6;

interface Placing {
  readonly width: number;
  readonly widths: PlacedTable['widths'];
}

/** The room that the words of each column have, in points, where all of them share `width`. */
function roomOf(kinds: readonly ColumnKind[], { width, widths }: Placing): number[] {
  const measures: readonly Measures[] = kinds.map((kind) => MEASURES[kind]);
  const left = width - total(measures.map(({ marginLeft = 0 }, at) => (widths[at] ?? 0) + marginLeft));
  const shares = total(measures.map(({ flex = 0 }) => flex));
  return measures.map(({ flex = 0, paddingLeft = 0, paddingRight = 0 }, at) => {
    const whole = widths[at] ?? (left * flex) / shares;
    const before = isApart(kinds, at) ? APART.words.paddingLeft : paddingLeft;
    return Math.max(10, whole - before - paddingRight);
  });
}
