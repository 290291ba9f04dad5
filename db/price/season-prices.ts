/**
 * What goods brought in each season, as the public may see it. A season is worked out when it is asked for, whole or
 * one kind of goods: a page reads no more than it shows.
 */
import { and, asc, eq, exists, inArray, type SQL } from 'drizzle-orm';
import { QueryBuilder } from 'drizzle-orm/sqlite-core';
import type { GoodsRow, SaleRow } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { goodsOf } from '#db/sale/facts.ts';
import { goods, lot, sale, standingOutcome as standing } from '#db/schema/index.ts';
import { pick } from '#lib/field/fields.ts';
import { FEWEST, type GoodsRange, goodsRanges } from '#lib/price/parts.ts';
import type { PriceMeasure } from '#lib/price/table.ts';
import { compareCodePoints, groupBy, once } from '#lib/result/text.ts';
import { STARTING_GOODS } from '#lib/sale/goods.ts';
import { PRICED_STAGES } from '#lib/sale/public.ts';
import { type ListedSeason, listedSeasons, priceListOf } from './lists.ts';
import { listedLots, offeredOfGoods } from './offered-lots.ts';

interface PricedSale extends Pick<SaleRow, 'name' | 'heldOn' | 'venue'> {
  /** True while lots may still be called, so that the figures are of what was called until now. */
  readonly running: boolean;
}

type GoodsName = Pick<GoodsRow, 'name' | 'scientificName'>;

export interface GoodsPrices extends GoodsRange, GoodsName {}

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
  /** The short names of the goods that may have been sold. */
  readonly codes: readonly string[];
  /** One kind of goods, once for each measure by which it was sold. */
  of(code: string): readonly GoodsPrices[];
}

/** The seasons of which something was sold or listed, newest first. Each is worked out only when it is asked for. */
export function pricedSeasons(book: Book, fewest = FEWEST): readonly SeasonPrices[] {
  const held = groupBy(salesWithPrices(book).all(), ({ season }) => season);
  const ofSales = [...held].map(([season, sales]) => seasonOf(book, { season, sales, fewest }));
  const seasons = ofSales.sort(newestFirst);
  // A list has no day: it stands before the first season that its name comes after.
  const lists = listedSeasons(book).filter(({ season }) => !held.has(season));
  for (const list of lists) {
    const at = seasons.findIndex(({ season }) => season < list.season);
    seasons.splice(at < 0 ? seasons.length : at, 0, seasonOf(book, { ...list, sales: [], fewest, list }));
  }
  return seasons;
}

const somethingSold = new QueryBuilder()
  .select({ id: lot.id })
  .from(lot)
  .innerJoin(standing, eq(standing.lotId, lot.id))
  .where(and(eq(lot.saleId, sale.id), eq(standing.kind, 'sold')));

/** Sales at which something was sold; of the others there is no price. */
const salesWithPrices = query(({ db }) =>
  db
    .select()
    .from(sale)
    .where(and(inArray(sale.stage, [...PRICED_STAGES]), exists(somethingSold)))
    .orderBy(asc(sale.heldOn), asc(sale.id)),
);

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

/** Reads what one kind of goods brought in a season. */
function readerOf(book: Book, asked: Asked): { readonly codes: () => readonly string[]; readonly read: ReadGoods } {
  const { sales, list, fewest } = asked;
  const names = namesOf(book, asked);
  const listedRows = once(() => (list ? priceListOf(book, list) : []));
  const offered = offeredOfGoods(book, sales);
  const lotsOf = (code: string) =>
    list ? listedLots(listedRows().filter(({ goods }) => goods === code)) : offered(code);
  return {
    codes: () => (list ? [...new Set(listedRows().map(({ goods }) => goods))] : codesOf(book, sales)),
    read: (code) => {
      const ranges = () => goodsRanges(lotsOf(code), fewest);
      const partsAnew = (of: PriceMeasure) => ranges().find(({ measure }) => measure === of)?.parts ?? [];
      return named(ranges(), names, partsAnew);
    },
  };
}

type ReadGoods = (code: string) => readonly GoodsPrices[];

function codesOf(book: Book, sales: readonly SaleRow[]): string[] {
  return [...new Set(sales.flatMap(({ id }) => goodsOf(book, id).map(({ goods }) => goods)))];
}

function seasonOf(book: Book, asked: Asked): SeasonPrices {
  const { season, sales, fewest } = asked;
  const { codes, read } = readerOf(book, asked);
  const byCode = new Map<string, readonly GoodsPrices[]>();
  const of = (code: string) => {
    const known = byCode.get(code) ?? read(code);
    byCode.set(code, known);
    return known;
  };
  const all = once(() => inOrder([...codes()].sort(compareCodePoints).flatMap(of)));
  return {
    ...{ season, fewest, currency: sales.at(-1)?.currency ?? '', of },
    sales: sales.map(({ name, heldOn, venue, stage }) => ({ name, heldOn, venue, running: stage === 'selling' })),
    get goods() {
      return all();
    },
    get codes() {
      return codes();
    },
  };
}

/**
 * The parts are worked out only for whoever asks for them, from lots that are read again: to keep the lots of a large
 * sale for it would take more memory than all the rest.
 */
function named(
  ranges: readonly GoodsRange[],
  names: ReadonlyMap<string, GoodsName>,
  partsAnew: (measure: PriceMeasure) => GoodsRange['parts'],
): readonly GoodsPrices[] {
  const all = ranges.map(({ goods, measure, range }) => {
    const parts = once(() => (range === null ? [] : partsAnew(measure)));
    return {
      ...{ goods, measure, range },
      ...(names.get(goods) ?? { name: goods, scientificName: '' }),
      get parts() {
        return parts();
      },
    };
  });
  return inOrder(all);
}

function inOrder(all: readonly GoodsPrices[]): readonly GoodsPrices[] {
  return [...all].sort((a, b) => a.name.localeCompare(b.name, 'en') || a.measure.localeCompare(b.measure, 'en'));
}

const namesAt = (which: SQL | undefined) =>
  query(({ db }) =>
    db
      .select(pick(goods, ['goods', 'name', 'scientificName']))
      .from(goods)
      .innerJoin(sale, eq(sale.id, goods.saleId))
      .where(which)
      .orderBy(asc(sale.heldOn), asc(sale.id)),
  );
const namesEver = namesAt(undefined);
const namesAtSale = namesAt(equals(goods.saleId, 'saleId'));

/** What each goods was called at the newest sale that had it; for a list, at any sale of the book or in the trade. */
function namesOf(book: Book, { sales, list }: Asked): Map<string, GoodsName> {
  const rows = list
    ? [...STARTING_GOODS, ...namesEver(book).all()]
    : sales.flatMap(({ id: saleId }) => namesAtSale(book).all({ saleId }));
  return new Map(rows.map((row) => [row.goods, pick(row, ['name', 'scientificName'])]));
}
