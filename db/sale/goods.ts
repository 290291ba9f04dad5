/** The goods of a sale as the line at the check-in table needs them, with what such goods brought last season. */
import { and, desc, eq, isNull, lt, sql } from 'drizzle-orm';
import { type GoodsRow, goodsById, type LotRow, type SaleRow } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { goods, lot, lotNow, sale, standingOutcome as standing, tag } from '#db/schema/index.ts';
import { type Facts, factsOfRow, pick } from '#lib/field/fields.ts';
import { unitInWords } from '#lib/lot/words.ts';
import { cents, showMoney } from '#lib/money/money.ts';
import type { PriceBounds } from '#lib/outcome/pace.ts';
import { type PriceMeasure, type PriceRow, pricedLot, priceRows } from '#lib/price/table.ts';
import { foldName } from '#lib/result/search.ts';
import type { By } from '#lib/sale/facts.ts';
import { GOODS_FIELDS } from '#lib/sale/goods-fields.ts';
import { type SeasonTags, seasonTags } from '#lib/tag/head.ts';
import { goodsRowsOf } from './facts.ts';

const given = sql.placeholder;
const CHOSEN = pick(GOODS_FIELDS, ['goods', 'name', 'by', 'exportTag', 'seasonLimit', 'sizes', 'grades', 'caution']);

export interface GoodsChoice extends Facts<typeof CHOSEN> {
  /** How their tags read this season; null where they take none. */
  readonly seasonTags: SeasonTags | null;
  /** Last season's prices in words, by what a price stands for; empty where there were none. */
  readonly brought: Readonly<Record<By, string>>;
}

export function goodsChoices(book: Book, thisSale: SaleRow): GoodsChoice[] {
  const rows = lastSeason(book, thisSale);
  return goodsRowsOf(book, thisSale.id).map((row) => ({
    ...factsOfRow(CHOSEN, row),
    seasonTags: row.exportTag ? tagsOfSeason(book, thisSale, row) : null,
    brought: broughtInWords(rows, row.goods),
  }));
}

// The head is what is left of a tag when all behind its last space is taken off. A piece that came back bears the tag of
// an earlier season, which says nothing of this one.
const findHeads = query(({ db }) =>
  db
    .selectDistinct({ head: sql<string>`rtrim(${tag.tag}, replace(${tag.tag}, ' ', ''))`.as('head') })
    .from(sale)
    .innerJoin(goods, eq(goods.saleId, sale.id))
    .innerJoin(lot, eq(lot.goodsId, goods.id))
    .innerJoin(tag, eq(tag.lotId, lot.id))
    .where(and(...[equals(sale.season, 'season'), equals(goods.goods, 'code')], isNull(tag.cameBackFromId)))
    .orderBy(sql`head`),
);

/** What the tags of such goods that came in this season show, whichever of its sales they came to. */
export function tagsOfSeason(book: Book, { region, season }: SaleRow, row: GoodsRow): SeasonTags {
  const heads = findHeads(book)
    .all({ season, code: row.goods })
    .map(({ head }) => head);
  return seasonTags({ region, season, tagSpeciesCode: row.tagSpeciesCode, heads });
}

/** The goods that a person means who writes their short name or their name; undefined for none of the sale, or several. */
export function goodsCalled(book: Book, saleId: number, called: string): GoodsRow | undefined {
  const all = goodsRowsOf(book, saleId);
  const exact = all.find(({ goods: code }) => code === called);
  if (exact) return exact;
  const folded = foldName(called);
  const [one, ...others] = all.filter(({ goods: code, name }) =>
    [code, name].some((word) => foldName(word) === folded),
  );
  return others.length === 0 ? one : undefined;
}

/** The rows of the newest earlier sale that is closed, all sections of goods together. */
export function lastSeason(book: Book, thisSale: SaleRow): readonly PriceRow[] {
  const before = newestClosed(book).get({ heldOn: thisSale.heldOn });
  if (!before) return [];
  const sold = findSold(book).all({ saleId: before.id });
  return priceRows(
    sold.map(({ priceCents, ...one }) => pricedLot({ ...one, section: '' }, cents(priceCents ?? 0), before.season)),
  );
}

const newestClosed = query(({ db }) =>
  db
    .select({ id: sale.id, season: sale.season })
    .from(sale)
    .where(and(eq(sale.stage, 'closed'), lt(sale.heldOn, given('heldOn'))))
    .orderBy(desc(sale.heldOn), desc(sale.id))
    .limit(1),
);

const findSold = query(({ db }) => {
  const { by, count, weightThousandths, priceCents } = lotNow;
  return db
    .select({ goods: lotNow.goods, by, count, weightThousandths, priceCents })
    .from(lotNow)
    .where(and(equals(lotNow.saleId, 'saleId'), sql`${lotNow.outcome} = 'sold'`));
});

/** What goods brought, in words, by what a price stands for; a lot sold by the lot is compared by the piece. */
export function broughtInWords(rows: readonly PriceRow[], goods: string): Readonly<Record<By, string>> {
  const words = (measure: PriceMeasure) => {
    const row = rows.find((one) => one.goods === goods && one.measure === measure);
    return row ? rowInWords(row) : '';
  };
  const piece = words('piece');
  return { piece, lot: piece, lb: words('lb'), oz: words('oz') };
}

function rowInWords({ season, lowCents, highCents, medianCents, measure, quantity, lots }: PriceRow): string {
  const unit = unitInWords(measure);
  const many =
    measure === 'piece'
      ? `${quantity} sold`
      : `${quantity} ${measure} sold in ${lots === 1 ? '1 lot' : `${lots} lots`}`;
  const range = `${showMoney(lowCents)} to ${showMoney(highCents)} ${unit}, median ${showMoney(medianCents)}`;
  return `${season}: ${range}, ${many}`;
}

export interface EarlierPrices extends PriceBounds {
  readonly season: string;
}

/** The range of the newest earlier sale in which these goods were sold by the same measure; null where there is none. */
export function earlierPrices(
  book: Book,
  { heldOn }: SaleRow,
  { goodsId, by }: Pick<LotRow, 'goodsId' | 'by'>,
): EarlierPrices | null {
  const code = goodsById(book, goodsId)?.goods;
  if (code === undefined) return null;
  for (const { id: saleId, season } of earlierSales(book).all({ heldOn })) {
    const found = findRange(book).get({ saleId, code, by });
    if (found?.low == null || found.high == null) continue;
    return { season, lowCents: cents(found.low), highCents: cents(found.high) };
  }
  return null;
}

const earlierSales = query(({ db }) =>
  db
    .select({ id: sale.id, season: sale.season })
    .from(sale)
    .where(lt(sale.heldOn, given('heldOn')))
    .orderBy(desc(sale.heldOn), desc(sale.id)),
);

/** From the goods on, so that no more outcomes are looked up than of their lots. */
const findRange = query(({ db }) =>
  db
    .select({
      low: sql<number | null>`min(${standing.priceCents})`,
      high: sql<number | null>`max(${standing.priceCents})`,
    })
    .from(goods)
    .crossJoin(lot)
    .crossJoin(standing)
    .where(
      and(
        ...[equals(goods.saleId, 'saleId'), equals(goods.goods, 'code'), eq(lot.goodsId, goods.id)],
        ...[equals(lot.by, 'by'), eq(standing.lotId, lot.id), eq(standing.kind, 'sold')],
      ),
    ),
);
