/**
 * Which rows of a list go on which page. At every page break the renderer lays out anew all that is still to come, so
 * that a long list in one piece takes time by the square of its length: a thousand lots took a minute. Here each page
 * is given about as much as it holds, guessed on the safe side; what was guessed too short is broken by the renderer.
 */
import type { ListCell, ListPaper, ListTable } from '#lib/paper/list.ts';
import { type PaperSize, SIDE, SIZES } from '../look.ts';
import { roomOf } from './columns.ts';

/** The part of the tables that stands on one page. */
export type PageTables = readonly ListTable[];

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
/** A letter of this typeface is about this much of its size wide; a bit more, because lines break at words. */
const LETTER = 0.52;

/** The tables, part by part: one entry for each page. */
export function pagesOfList(sheet: ListPaper, size: PaperSize): PageTables[] {
  const room = SIZES[size].height - MARGINS - SLACK;
  const pages: ListTable[][] = [[]];
  let left = room - headingHeight(sheet, WIDTHS[size]);
  for (const table of sheet.tables) {
    const heights = rowHeights(table, WIDTHS[size]);
    let part: ListTable = { ...table, rows: [] };
    left -= headHeight(part, WIDTHS[size]);
    for (const [at, row] of table.rows.entries()) {
      const height = heights[at] ?? 0;
      const needed = at === table.rows.length - 1 ? height + SUM : height;
      // A new page begins only for what has rows before it, lest a page stay empty.
      if (needed > left && (part.rows.length > 0 || (pages.at(-1)?.length ?? 0) > 0)) {
        if (part.rows.length > 0) pages.at(-1)?.push({ ...part, sum: '' });
        pages.push([]);
        part = { ...table, rows: [], title: part.rows.length > 0 ? continued(table.title) : table.title };
        left = room - headHeight(part, WIDTHS[size]);
      }
      part = { ...part, rows: [...part.rows, row] };
      left -= height;
    }
    pages.at(-1)?.push(part);
    left -= table.sum === '' ? 0 : SUM;
  }
  return pages;
}

/** Whose rows these are is said again on the page that goes on with them. */
function continued(title: string): string {
  return title === '' ? '' : `${title}, continued`;
}

function headHeight({ title }: ListTable, width: number): number {
  return TABLE_HEAD + (title === '' ? 0 : TITLE - LINE + linesOf(title, { size: 10.5, room: width }) * LINE);
}

function rowHeights({ columns, rows }: ListTable, width: number): number[] {
  const kinds = columns.map(({ kind }) => kind);
  const room = roomOf(kinds, width);
  const least = kinds.includes('blank') ? WRITING_ROW : 0;
  return rows.map((row) =>
    Math.max(least, AROUND_ROW + Math.max(...row.map((cell, at) => cellHeight(cell, room[at] ?? width)))),
  );
}

function cellHeight({ words, fine }: ListCell, room: number): number {
  const small = fine.map((line) => linesOf(line, { size: 7.5, room })).reduce((so, one) => so + one, 0);
  return linesOf(words, { size: 9, room }) * LINE + small * FINE;
}

function linesOf(text: string, { size, room }: { size: number; room: number }): number {
  return Math.ceil((text.length * size * LETTER) / room);
}

/** The first page's heading, with what is said and signed above the tables. */
function headingHeight({ association, number, parties, opening, signedAtTop }: ListPaper, width: number): number {
  const top = Math.max(17 + LINE * association.address.length, number ? 76 : 0);
  const party = Math.max(0, ...parties.map(({ sentences }) => 8 + LINE * (1 + sentences.length)));
  const said = opening.map((line) => linesOf(line, { size: 9.5, room: width })).reduce((so, one) => so + one, 0);
  return top + 36 + party + 6 + said * WIDE_LINE + (signedAtTop ? 44 : 0);
}
