/** The seasons of which only a plain price list is left: of each the rows that were read in last. */
import { and, asc, eq, max, sql } from 'drizzle-orm';
import type { Book } from '../open.ts';
import { priceListRow, priceSetting } from '../schema/index.ts';

const given = sql.placeholder;

export type PriceListRowOfBook = typeof priceListRow.$inferSelect;

export interface ListedSeason {
  readonly season: string;
  /** The log line that read its rows in. */
  readonly line: number;
}

export function listedSeasons(book: Book): ListedSeason[] {
  const find = book.prepared('listed seasons', (db) =>
    db
      .select({ season: priceListRow.season, line: sql<number>`${max(priceListRow.line)}` })
      .from(priceListRow)
      .groupBy(priceListRow.season)
      .prepare(),
  );
  return find.all();
}

/** The rows of a season in the order of the list. */
export function priceListOf(book: Book, { season, line }: ListedSeason): PriceListRowOfBook[] {
  const find = book.prepared('price list of a season', (db) =>
    db
      .select()
      .from(priceListRow)
      .where(and(eq(priceListRow.season, given('season')), eq(priceListRow.line, given('line'))))
      .orderBy(asc(priceListRow.id))
      .prepare(),
  );
  return find.all({ season, line });
}

/** How many sellers and buyers a range has at least as the association has set it, or undefined. */
export function fewestSet(book: Book): number | undefined {
  const find = book.prepared('price setting', (db) =>
    db.select({ fewest: priceSetting.fewest }).from(priceSetting).prepare(),
  );
  return find.get()?.fewest;
}
