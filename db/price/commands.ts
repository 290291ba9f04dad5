import { eq } from 'drizzle-orm';
import * as z from 'zod';
import { defineCommand } from '#db/book/command.ts';
import { flag, someText } from '#db/book/inputs.ts';
import type { Book } from '#db/book/open.ts';
import { addRow } from '#db/book/rows.ts';
import { checkPriceList, type PlacedRow, PRICE_LIST_COLUMNS } from '#db/exchange/price-list.ts';
import { problemList, type Report, refusalOfProblems } from '#db/exchange/problem.ts';
import { priceListRow, priceSetting, sale } from '#db/schema/index.ts';
import { accept, refuse } from '#lib/result/result.ts';
import { listedSeasons } from './lists.ts';

export const pricesFewest = defineCommand({
  name: 'prices.fewest',
  summary: 'Sets how many sellers and buyers a price range has at least before it is shown.',
  logLabel: 'Fewest sellers and buyers behind a shown price set',
  stations: ['office'],
  input: z.strictObject({
    fewest: z
      .int({ error: 'Enter how many as a whole number.' })
      .min(1, { error: 'Enter at least 1.' })
      .max(99, { error: 'Enter at most 99.' }),
  }),
  run({ book, line }, { fewest }) {
    const row = { id: 1, fewest, line };
    book.db.insert(priceSetting).values(row).onConflictDoUpdate({ target: priceSetting.id, set: row }).run();
    return accept({ fewest });
  },
});

const MOST_ROWS = 200_000;
const cells = z.partialRecord(z.enum(PRICE_LIST_COLUMNS), z.string().max(2000));

/**
 * Takes a plain price list into the book, all or nothing: what pieces brought in seasons of which no sale is left. A
 * season that was read in before stands until `replaces` says that this list takes its place.
 */
export const pricesImport = defineCommand({
  name: 'prices.import',
  summary: 'Imports the rows of a plain price list, all or nothing.',
  logLabel: 'Price list imported',
  stations: ['office'],
  input: z.strictObject({
    /** What the file is called, for saying where something is wrong. */
    file: someText,
    rows: z.array(z.tuple([z.int().min(1), cells])).max(MOST_ROWS),
    replaces: flag.default(false),
  }),
  run({ book, line }, { file, rows, replaces }) {
    const { problems, report } = problemList();
    const raw = rows.map(([at, texts]) => ({ line: at, cells: texts as Readonly<Record<string, string>> }));
    const placed = checkPriceList(file, raw, report);
    checkSeasons(book, placed, { file, replaces, report });
    const refusal = refusalOfProblems(problems);
    if (refusal !== null) return refusal;
    for (const { at: _at, ...row } of placed) addRow({ book, line }, priceListRow, row);
    const seasons = [...new Set(placed.map(({ season }) => season))];
    return accept({ rows: placed.length, seasons });
  },
});

/** Each season once, at the first row that names it. */
function checkSeasons(
  book: Book,
  rows: readonly PlacedRow[],
  { file, replaces, report }: { readonly file: string; readonly replaces: boolean; readonly report: Report },
): void {
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
