import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { checkPriceList, type PlacedRow, PRICE_LIST_COLUMNS } from '../exchange/price-list.ts';
import { problemList, type Report, refusalOfProblems } from '../exchange/problem.ts';
import { flag, someText } from '../inputs.ts';
import type { Book } from '../open.ts';
import { listedSeasons } from '../queries/price-lists.ts';
import { insertRow } from '../rows.ts';
import { priceListRow, sale } from '../schema/index.ts';

const MOST_ROWS = 200_000;
const cells = z.partialRecord(z.enum(PRICE_LIST_COLUMNS), z.string().max(2000));

const input = z.strictObject({
  /** What the file is called, for saying where something is wrong. */
  file: someText,
  rows: z.array(z.tuple([z.int().min(1), cells])).max(MOST_ROWS),
  replaces: flag.default(false),
});

/**
 * Takes a plain price list into the book, all or nothing: what pieces brought in seasons of which no sale is left. A
 * season that was read in before stands until `replaces` says that this list takes its place.
 */
export const pricesImport = defineCommand({
  name: 'prices.import',
  summary: 'Imports the rows of a plain price list, all or nothing.',
  logLabel: 'Price list imported',
  stations: ['office'],
  input,
  run({ book, line }, { file, rows, replaces }) {
    const { problems, report } = problemList();
    const raw = rows.map(([at, texts]) => ({ line: at, cells: texts as Readonly<Record<string, string>> }));
    const placed = checkPriceList(file, raw, report);
    checkSeasons(book, { file, replaces, report }, placed);
    const refusal = refusalOfProblems(problems);
    if (refusal !== null) return refusal;
    for (const { at: _at, ...row } of placed) insertRow(book, priceListRow, { ...row, line });
    const seasons = [...new Set(placed.map(({ season }) => season))];
    return accept({ rows: placed.length, seasons });
  },
});

interface Asked {
  readonly file: string;
  readonly replaces: boolean;
  readonly report: Report;
}

/** Each season once, at the first row that names it. */
function checkSeasons(book: Book, { file, replaces, report }: Asked, rows: readonly PlacedRow[]): void {
  const firstRows = new Map([...rows].reverse().map(({ season, at }) => [season, at]));
  const listed = new Set(listedSeasons(book).map(({ season }) => season));
  for (const [season, line] of firstRows) {
    const place = { file, line, column: 'season' };
    const held = book.db.select({ name: sale.name }).from(sale).where(eq(sale.season, season)).get();
    if (held) {
      const say = `Delete the rows of ${season}: the book holds its sale, ${held.name}, and takes the prices from there.`;
      report(place, refuse('taken', say));
    } else if (listed.has(season) && !replaces) {
      const say = `Delete the rows of ${season}, which the book has already; or replace them with replace-prices.`;
      report(place, refuse('already', say));
    }
  }
}
