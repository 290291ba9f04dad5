/** What goods brought in each season, as the public may see it; worked out once for as long as the season stays as it is. */
import { asc, inArray } from 'drizzle-orm';
import { FEWEST, type GoodsRange, goodsRanges } from '#lib/range-parts.ts';
import { logHead } from '../log.ts';
import type { Book } from '../open.ts';
import { goods, sale } from '../schema/index.ts';
import type { SaleRow } from './find.ts';
import { offeredLots } from './offered-lots.ts';

export interface PricedSale {
  readonly name: string;
  readonly heldOn: string;
  readonly venue: string;
  /** True while lots may still be called, so that the figures are of what was called until now. */
  readonly running: boolean;
}

export interface GoodsPrices extends GoodsRange {
  readonly name: string;
  readonly scientificName: string;
}

export interface SeasonPrices {
  readonly season: string;
  readonly currency: string;
  /** In the order in which they were held. */
  readonly sales: readonly PricedSale[];
  /** In the order of their names. */
  readonly goods: readonly GoodsPrices[];
  /** How many sellers and buyers each range has at least. */
  readonly fewest: number;
}

type Kept = Map<string, { readonly key: string; readonly prices: SeasonPrices }>;
const keptFor = new WeakMap<Book, Kept>();

/** The seasons of which something was sold, newest first. */
export function pricedSeasons(book: Book, fewest = FEWEST): SeasonPrices[] {
  const seasons = new Map<string, SaleRow[]>();
  for (const row of salesWithResults(book)) seasons.set(row.season, [...(seasons.get(row.season) ?? []), row]);
  const prices = [...seasons].map(([season, sales]) => seasonPrices(book, { season, sales, fewest }));
  return prices.filter((one) => one.goods.length > 0).sort(newestFirst);
}

/** Sales of which nothing was called yet are no season on the page. */
function salesWithResults(book: Book): SaleRow[] {
  const find = book.prepared('sales with results', (db) =>
    db
      .select()
      .from(sale)
      .where(inArray(sale.stage, ['selling', 'settling', 'closed']))
      .orderBy(asc(sale.heldOn), asc(sale.id))
      .prepare(),
  );
  return find.all();
}

function newestFirst(a: SeasonPrices, b: SeasonPrices): number {
  const last = ({ sales }: SeasonPrices) => sales.at(-1)?.heldOn ?? '';
  return last(a) < last(b) ? 1 : -1;
}

interface Asked {
  readonly season: string;
  readonly sales: readonly SaleRow[];
  readonly fewest: number;
}

function seasonPrices(book: Book, asked: Asked): SeasonPrices {
  const kept: Kept = keptFor.get(book) ?? new Map();
  keptFor.set(book, kept);
  const slot = JSON.stringify([asked.season, asked.fewest]);
  const key = stateOf(book, asked.sales);
  const known = kept.get(slot);
  if (known?.key === key) return known.prices;
  const prices = workOut(book, asked);
  kept.set(slot, { key, prices });
  return prices;
}

/** A closed sale stays as it is until its row changes; any other may change with each line of the log. */
function stateOf(book: Book, sales: readonly SaleRow[]): string {
  const { hash } = logHead(book);
  return JSON.stringify(sales.map(({ id, line, stage }) => [id, line, stage === 'closed' ? '' : hash]));
}

function workOut(book: Book, { season, sales, fewest }: Asked): SeasonPrices {
  const names = namesOf(book, sales);
  const ranges = goodsRanges(offeredLots(book, sales), fewest);
  const named = ranges.map((range) => ({
    ...range,
    ...(names.get(range.goods) ?? { name: range.goods, scientificName: '' }),
  }));
  return {
    ...{ season, fewest, currency: sales.at(-1)?.currency ?? '' },
    sales: sales.map(({ name, heldOn, venue, stage }) => ({ name, heldOn, venue, running: stage === 'selling' })),
    goods: named.sort((a, b) => a.name.localeCompare(b.name, 'en') || a.measure.localeCompare(b.measure, 'en')),
  };
}

/** What each goods was called at the newest sale that had it. */
function namesOf(book: Book, sales: readonly SaleRow[]) {
  const ids = sales.map(({ id }) => id);
  const { goods: code, name, scientificName } = goods;
  const rows = book.db
    .select({ code, name, scientificName })
    .from(goods)
    .where(inArray(goods.saleId, ids))
    .orderBy(asc(goods.saleId))
    .all();
  return new Map(rows.map((row) => [row.code, { name: row.name, scientificName: row.scientificName }]));
}
