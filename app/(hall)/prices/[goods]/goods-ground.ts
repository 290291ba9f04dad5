import 'server-only';
import { notFound } from 'next/navigation';
import { pricedGoods } from '#db/queries/priced-goods.ts';
import type { SeasonPrices } from '#db/queries/season-prices.ts';
import { commonNames, type Findable } from '#lib/price-finding.ts';
import { pricesGround } from '../ground.ts';
import { type GoodsHistory, historyOf } from './history.ts';

export interface GoodsGround {
  readonly association: string;
  readonly goods: Findable;
  /** Other names by which trappers call them. */
  readonly called: readonly string[];
  readonly histories: readonly GoodsHistory[];
  /** The season that the address names, else the newest in which some was sold; undefined where none was. */
  readonly season: SeasonPrices | undefined;
  /** The season's name, or `every`. */
  readonly shown: string;
}

/** One kind of goods and its seasons; goods or a season that nobody knows are a page that is not there. */
export async function goodsGround(code: string, named: string): Promise<GoodsGround> {
  const { book, association, seasons } = await pricesGround();
  const goods = pricedGoods(book).find((one) => one.goods === code);
  const histories = historyOf(seasons, code);
  const years = seasons.filter(({ season }) =>
    histories.some((history) => history.years.some((year) => year.season.season === season)),
  );
  const newest = named === '' || named === 'every';
  const season = newest ? years[0] : years.find((one) => one.season === named);
  if (!goods || (named !== '' && !season)) notFound();
  const shown = named === 'every' ? named : (season?.season ?? '');
  return { association, goods, called: commonNames(code), histories, season, shown };
}
