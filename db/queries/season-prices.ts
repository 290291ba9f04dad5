/**
 * What goods brought in each season, as the public may see it. A season is worked out when it is asked for, whole or
 * one kind of goods, and kept until something of it changes: a page reads no more than it shows.
 */
import { asc, inArray } from 'drizzle-orm';
import { compareCodePoints } from '#lib/order.ts';
import type { Measure } from '#lib/price-table.ts';
import { FEWEST, type GoodsRange, goodsRanges } from '#lib/range-parts.ts';
import { STARTING_GOODS } from '#lib/starting-goods.ts';
import type { Book } from '../open.ts';
import { sale } from '../schema/index.ts';
import { type Looked, lookNow } from '../touched.ts';
import type { SaleRow } from './find.ts';
import { goodsTouched } from './goods-touched.ts';
import { keptUntilLine } from './kept.ts';
import { listedLots, offeredOfGoods } from './offered-lots.ts';
import { type ListedSeason, listedSeasons, type PriceListRowOfBook, priceListOf } from './price-lists.ts';
import { goodsOf } from './sale-facts.ts';

interface PricedSale {
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
  /** The short names of the goods that may have been sold. */
  readonly codes: readonly string[];
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

interface Kept {
  /** Which sales or which list the parts are of, and how these sales are called and stand. */
  readonly of: string;
  readonly shown: string;
  readonly parts: Parts;
  readonly prices: SeasonPrices;
  looked: Looked;
}

/** The season as it was worked out before, but for the goods of which something has changed. */
function keptSeason(book: Book, asked: Asked): SeasonPrices {
  const kept = book.prepared('seasons of prices', () => new Map<string, Kept>());
  const slot = JSON.stringify([asked.season, asked.fewest]);
  const of = JSON.stringify([asked.list?.line, ...asked.sales.map(({ id }) => id)]);
  const shown = JSON.stringify(asked.sales.map(({ line, stage }) => [line, stage]));
  const known = kept.get(slot);
  const looked = lookNow(book);
  const changed = known?.of === of ? goodsTouched(book, asked.sales, known.looked) : null;
  if (known && changed?.size === 0 && known.shown === shown) {
    known.looked = looked;
    return known.prices;
  }
  const parts = changed && known ? withoutGoods(known.parts, changed) : partsOf(book, asked);
  const prices = seasonOf(asked, parts);
  kept.set(slot, { of, shown, parts, prices, looked });
  return prices;
}

/** What a season is put together from. */
interface Parts {
  readonly codes: () => readonly string[];
  readonly byCode: Map<string, readonly GoodsPrices[]>;
  readonly read: (code: string) => readonly GoodsPrices[];
}

function partsOf(book: Book, asked: Asked): Parts {
  const { sales, list, fewest } = asked;
  const names = namesOf(book, asked);
  let rows: readonly PriceListRowOfBook[] | undefined;
  const listedRows = () => {
    rows ??= list ? priceListOf(book, list) : [];
    return rows;
  };
  const offered = offeredOfGoods(book, sales);
  const lotsOf = (code: string) =>
    list ? listedLots(listedRows().filter(({ goods }) => goods === code)) : offered(code);
  return {
    codes: () => (list ? [...new Set(listedRows().map(({ goods }) => goods))] : codesOf(book, sales)),
    byCode: new Map(),
    read: (code) => {
      const ranges = () => goodsRanges(lotsOf(code), fewest);
      const partsAnew = (of: Measure) => ranges().find(({ measure }) => measure === of)?.parts ?? [];
      return named(ranges(), names, partsAnew);
    },
  };
}

function codesOf(book: Book, sales: readonly SaleRow[]): string[] {
  return [...new Set(sales.flatMap(({ id }) => goodsOf(book, id).map(({ goods }) => goods)))];
}

function withoutGoods(parts: Parts, codes: ReadonlySet<string>): Parts {
  const byCode = new Map([...parts.byCode].filter(([code]) => !codes.has(code)));
  return { ...parts, byCode };
}

function seasonOf({ season, sales, fewest }: Asked, { codes, byCode, read }: Parts): SeasonPrices {
  const of = (code: string) => {
    const known = byCode.get(code) ?? read(code);
    byCode.set(code, known);
    return known;
  };
  let all: readonly GoodsPrices[] | undefined;
  return {
    ...{ season, fewest, currency: sales.at(-1)?.currency ?? '', of },
    sales: sales.map(({ name, heldOn, venue, stage }) => ({ name, heldOn, venue, running: stage === 'selling' })),
    get goods() {
      all ??= inOrder([...codes()].sort(compareCodePoints).flatMap(of));
      return all;
    },
    get codes() {
      return codes();
    },
  };
}

interface GoodsName {
  readonly name: string;
  readonly scientificName: string;
}

/**
 * The parts are worked out only for whoever asks for them, from lots that are read again: to keep the lots of a large
 * sale for it would take more memory than all the rest.
 */
function named(
  ranges: readonly GoodsRange[],
  names: ReadonlyMap<string, GoodsName>,
  partsAnew: (measure: Measure) => GoodsRange['parts'],
): readonly GoodsPrices[] {
  const all = ranges.map(({ goods, measure, range }) => {
    let known: GoodsRange['parts'] | undefined;
    return {
      ...{ goods, measure, range },
      ...(names.get(goods) ?? { name: goods, scientificName: '' }),
      get parts() {
        known ??= range === null ? [] : partsAnew(measure);
        return known;
      },
    };
  });
  return inOrder(all);
}

function inOrder(all: readonly GoodsPrices[]): readonly GoodsPrices[] {
  return [...all].sort((a, b) => a.name.localeCompare(b.name, 'en') || a.measure.localeCompare(b.measure, 'en'));
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
