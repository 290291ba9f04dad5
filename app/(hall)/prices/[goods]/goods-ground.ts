import 'server-only';
import { notFound } from 'next/navigation';
import type { Address } from '#app/station.ts';
import { pricedGoods } from '#db/queries/price-lists.ts';
import type { SeasonPrices } from '#db/queries/season-prices.ts';
import { nameNone, pathInWords } from '#lib/part-path.ts';
import { commonNames, type Findable } from '#lib/price-finding.ts';
import { pricesGround, wordOf } from '../ground.ts';
import { pathOf } from './address.ts';
import { type GoodsHistory, historyOf } from './history.ts';

export interface GoodsGround {
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
export async function goodsGround(code: string, words: Awaited<Address>): Promise<GoodsGround> {
  const { book, association, seasons } = await pricesGround();
  const goods = pricedGoods(book).find((one) => one.goods === code);
  const path = pathOf(words);
  const histories = historyOf(seasons, code, path);
  const years = seasons.filter(({ season }) =>
    histories.some((history) => history.years.some((year) => year.season.season === season)),
  );
  const named = wordOf(words, 'season');
  const season = named === '' ? years[0] : years.find((one) => one.season === named);
  const noSuchPart = !nameNone(path) && histories.every(({ years }) => years.every(({ range }) => range === null));
  if (!goods || (named !== '' && !season) || noSuchPart) notFound();
  return { association, goods, called: commonNames(code), histories, part: pathInWords(path), season };
}
