import 'server-only';
import { notFound } from 'next/navigation';
import { pathOf, pricesContext, seasonNamed, wordOf } from '#app/(hall)/prices/prices-context.ts';
import type { SearchParams } from '#app/request/page-context.ts';
import { pricedGoods } from '#db/price/lists.ts';
import type { GoodsPrices, SeasonPrices } from '#db/price/season-prices.ts';
import { commonNames, type Findable } from '#lib/price/find.ts';
import type { PriceRange } from '#lib/price/range.ts';
import type { PriceMeasure } from '#lib/price/table.ts';
import { nameNone, type PartPath, partAt, pathInWords } from '#lib/price/words.ts';
import { groupBy } from '#lib/result/text.ts';

export interface GoodsYear {
  readonly season: SeasonPrices;
  readonly prices: GoodsPrices;
  /** Of the whole, or of the part that is looked at; null where it is withheld. */
  readonly range: PriceRange | null;
}

export interface GoodsHistory {
  readonly name: string;
  readonly measure: PriceMeasure;
  /** Newest first. */
  readonly years: readonly GoodsYear[];
}

export interface GoodsContext {
  readonly association: string;
  readonly goods: Findable;
  /** Other names by which trappers call them. */
  readonly called: readonly string[];
  readonly histories: readonly GoodsHistory[];
  /** The part that is looked at, in words; empty where it is the whole. */
  readonly part: string;
  /** The season that the address names, else the newest in which some was sold; undefined where none was. */
  readonly season: SeasonPrices | undefined;
}

/** One kind of goods and its seasons; goods, a part or a season that nobody knows are a page that is not there. */
export async function goodsContext(code: string, words: Awaited<SearchParams>): Promise<GoodsContext> {
  const { book, association, seasons } = await pricesContext();
  const goods = pricedGoods(book).find((one) => one.goods === code);
  const path = pathOf(words);
  const histories = historyOf(seasons, code, path);
  const years = seasons.filter(({ season }) =>
    histories.some((history) => history.years.some((year) => year.season.season === season)),
  );
  const named = wordOf(words, 'season');
  const season = seasonNamed(years, named);
  const noSuchPart = !nameNone(path) && histories.every(({ years }) => years.every(({ range }) => range === null));
  if (!goods || (named !== '' && !season) || noSuchPart) notFound();
  return { association, goods, called: commonNames(code), histories, part: pathInWords(path), season };
}

/** What one kind of goods, or one part of it, brought in each season, once for each measure by which it was sold. */
function historyOf(seasons: readonly SeasonPrices[], code: string, path: PartPath): GoodsHistory[] {
  const years = seasons.flatMap((season) =>
    season.of(code).map((prices) => {
      const range = nameNone(path) ? prices.range : (partAt(prices.parts, path)?.range ?? null);
      return { season, prices, range };
    }),
  );
  return [...groupBy(years, ({ prices }) => prices.measure)].map(([measure, own]) => {
    return { name: own[0]?.prices.name ?? code, measure, years: own };
  });
}
