/**
 * What goods brought in each season, as the public may see it. A season is worked out when it is asked for, whole or
 * one kind of goods, and kept until something of it changes: a page reads no more than it shows.
 */
import { asc, inArray } from 'drizzle-orm';
import { FEWEST, type GoodsRange, goodsRanges } from '#lib/range-parts.ts';
import { STARTING_GOODS } from '#lib/starting-goods.ts';
import type { Book } from '../open.ts';
import { sale } from '../schema/index.ts';
import type { SaleRow } from './find.ts';
import { keptUntilLine } from './kept.ts';
import { listedLots, offeredLots } from './offered-lots.ts';
import { type ListedSeason, listedSeasons, priceListOf } from './price-lists.ts';
import { pricesState } from './prices-state.ts';

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
  /** ISO 4217; empty where a plain price list is all there is. */
  readonly currency: string;
  /** In the order in which they were held; none where a plain price list is all there is. */
  readonly sales: readonly PricedSale[];
  /** How many sellers and buyers each range has at least. */
  readonly fewest: number;
  /** Every kind of goods in the order of their names. */
  readonly goods: readonly GoodsPrices[];
  /** One kind of goods, once for each measure by which it was sold. */
  of(code: string): readonly GoodsPrices[];
}

/** The seasons of which something was sold or listed, newest first. Nothing is looked up until the log has moved. */
export function pricedSeasons(book: Book, fewest = FEWEST): readonly SeasonPrices[] {
  return keptUntilLine(book, `prices of ${fewest}`, () => seasonsOf(book, fewest));
}

function seasonsOf(book: Book, fewest: number): SeasonPrices[] {
  const held = new Map<string, SaleRow[]>();
  for (const row of salesWithPrices(book)) held.set(row.season, [...(held.get(row.season) ?? []), row]);
  const ofSales = [...held].map(([season, sales]) => keptSeason(book, { season, sales, fewest }));
  const seasons = ofSales.sort(newestFirst);
  // A list has no day: it stands before the first season that its name comes after.
  const lists = listedSeasons(book).filter(({ season }) => !held.has(season));
  for (const list of lists) {
    const at = seasons.findIndex(({ season }) => season < list.season);
    seasons.splice(at < 0 ? seasons.length : at, 0, keptSeason(book, { ...list, sales: [], fewest, list }));
  }
  return seasons;
}

/** Sales at which something was sold; of the others there is no price. */
function salesWithPrices(book: Book): SaleRow[] {
  const find = book.prepared('sales with results', (db) =>
    db
      .select()
      .from(sale)
      .where(inArray(sale.stage, ['selling', 'settling', 'closed']))
      .orderBy(asc(sale.heldOn), asc(sale.id))
      .prepare(),
  );
  const sold = book.prepared('a sold lot of a sale', () => book.sqlite.prepare(SOMETHING_SOLD).pluck());
  return find.all().filter(({ id }) => sold.get(id) === 1);
}

const SOMETHING_SOLD = `
  SELECT 1 FROM lot JOIN outcome ON outcome.lot_id = lot.id WHERE lot.sale_id = ? AND outcome.kind = 'sold'
    AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id) LIMIT 1`;

function newestFirst(a: SeasonPrices, b: SeasonPrices): number {
  const last = ({ sales }: SeasonPrices) => sales.at(-1)?.heldOn ?? '';
  return last(a) < last(b) ? 1 : -1;
}

interface Asked {
  readonly season: string;
  readonly sales: readonly SaleRow[];
  readonly fewest: number;
  readonly list?: ListedSeason;
}

type Kept = Map<string, { readonly key: string; readonly prices: SeasonPrices }>;

/** The season as it was worked out before, for as long as nothing of it has changed. */
function keptSeason(book: Book, asked: Asked): SeasonPrices {
  const kept = book.prepared('seasons of prices', (): Kept => new Map());
  const slot = JSON.stringify([asked.season, asked.fewest]);
  const key = JSON.stringify([asked.list?.line, ...asked.sales.map((row) => pricesState(book, row))]);
  const known = kept.get(slot);
  if (known?.key === key) return known.prices;
  const prices = seasonOf(book, asked);
  kept.set(slot, { key, prices });
  return prices;
}

function seasonOf(book: Book, asked: Asked): SeasonPrices {
  const { season, sales, fewest } = asked;
  const names = namesOf(book, asked);
  const read = (code: string | null) => named(goodsRanges(lotsOf(book, asked, code), fewest), names);
  const byCode = new Map<string, readonly GoodsPrices[]>();
  let all: readonly GoodsPrices[] | undefined;
  return {
    ...{ season, fewest, currency: sales.at(-1)?.currency ?? '' },
    sales: sales.map(({ name, heldOn, venue, stage }) => ({ name, heldOn, venue, running: stage === 'selling' })),
    get goods() {
      all ??= read(null);
      return all;
    },
    of(code) {
      const known = byCode.get(code) ?? all?.filter(({ goods }) => goods === code) ?? read(code);
      byCode.set(code, known);
      return known;
    },
  };
}

function lotsOf(book: Book, { sales, list }: Asked, code: string | null) {
  if (!list) return offeredLots(book, sales, code);
  return listedLots(priceListOf(book, list).filter(({ goods }) => code === null || goods === code));
}

interface GoodsName {
  readonly name: string;
  readonly scientificName: string;
}

function named(ranges: readonly GoodsRange[], names: ReadonlyMap<string, GoodsName>): GoodsPrices[] {
  const all = ranges.map((one) => ({
    ...{ goods: one.goods, measure: one.measure, range: one.range },
    ...(names.get(one.goods) ?? { name: one.goods, scientificName: '' }),
    // Handed on unread: the parts are worked out only for whoever asks for them.
    get parts() {
      return one.parts;
    },
  }));
  return all.sort((a, b) => a.name.localeCompare(b.name, 'en') || a.measure.localeCompare(b.measure, 'en'));
}

/** What each goods was called at the newest sale that had it; for a list, at any sale of the book or in the trade. */
function namesOf(book: Book, { sales, list }: Asked): Map<string, GoodsName> {
  const find = book.prepared('names of goods', () => book.sqlite.prepare(NAMES).raw());
  const rows = (list ? [null] : sales.map(({ id }) => id)).flatMap(
    (saleId) => find.all({ saleId }) as [code: string, name: string, scientificName: string][],
  );
  const starting = list ? STARTING_GOODS.map(({ goods, name, scientificName }) => [goods, name, scientificName]) : [];
  return new Map(
    [...starting, ...rows].map(([code = '', name = '', scientificName = '']) => [code, { name, scientificName }]),
  );
}

const NAMES = `
  SELECT goods.goods, goods.name, goods.scientific_name FROM goods JOIN sale ON sale.id = goods.sale_id
  WHERE :saleId IS NULL OR sale.id = :saleId ORDER BY sale.held_on, sale.id`;
