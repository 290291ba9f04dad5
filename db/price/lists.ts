/** The seasons of which only a plain price list is left, and the goods of which there may be prices. */
import { asc, eq, inArray, max, sql } from 'drizzle-orm';
import { rowsBy } from '#db/book/find.ts';
import { type Book, query } from '#db/book/open.ts';
import { goods, priceListRow, priceSetting, sale } from '#db/schema/index.ts';
import { pick } from '#lib/field/fields.ts';
import type { Findable } from '#lib/price/find.ts';
import { STARTING_GOODS } from '#lib/sale/goods.ts';
import { PRICED_STAGES } from '#lib/sale/public.ts';

export type PriceListRowOfBook = typeof priceListRow.$inferSelect;

/** `line` is that which read its rows in: of a season that was read in again, the newest. */
export type ListedSeason = Pick<PriceListRowOfBook, 'season' | 'line'>;

const findSeasons = query(({ db }) =>
  db
    .select({ season: priceListRow.season, line: sql<number>`${max(priceListRow.line)}` })
    .from(priceListRow)
    .groupBy(priceListRow.season),
);

export function listedSeasons(book: Book): ListedSeason[] {
  return findSeasons(book).all();
}

const rowsOfList = rowsBy(priceListRow, priceListRow.id, 'season', 'line');

/** The rows of a season in the order of the list. */
export function priceListOf(book: Book, { season, line }: ListedSeason): PriceListRowOfBook[] {
  return rowsOfList(book, season, line);
}

const findSetting = query(({ db }) => db.select({ fewest: priceSetting.fewest }).from(priceSetting));

/** How many sellers and buyers a range has at least as the association has set it, or undefined. */
export function fewestSet(book: Book): number | undefined {
  return findSetting(book).get()?.fewest;
}

const findHeld = query(({ db }) =>
  db
    .select(pick(goods, ['goods', 'name', 'scientificName']))
    .from(goods)
    .innerJoin(sale, eq(sale.id, goods.saleId))
    .where(inArray(sale.stage, [...PRICED_STAGES]))
    .orderBy(asc(sale.heldOn), asc(sale.id)),
);
const findListed = query(({ db }) => db.selectDistinct({ code: priceListRow.goods }).from(priceListRow));

/**
 * The kinds of goods that members may look for: those of every sale that was held, and those of plain price lists. In
 * the order of their names; each as the newest sale calls it, else as the trade does.
 */
export function pricedGoods(book: Book): Findable[] {
  const known = new Map<string, Findable>(
    findHeld(book)
      .all()
      .map((one) => [one.goods, one]),
  );
  for (const { code } of findListed(book).all()) {
    if (known.has(code)) continue;
    const starting = STARTING_GOODS.find((one) => one.goods === code);
    const { name, scientificName } = starting ?? { name: code, scientificName: '' };
    known.set(code, { goods: code, name, scientificName });
  }
  return [...known.values()].sort((a, b) => a.name.localeCompare(b.name, 'en'));
}
