/** The goods of a sale as the line at the check-in table needs them, with what such goods brought last season. */
import { and, eq, isNull, sql } from 'drizzle-orm';
import type { By } from '#lib/facts.ts';
import { type Facts, factsOfRow, pick } from '#lib/field/fields.ts';
import { foldName } from '#lib/fold.ts';
import { GOODS_FIELDS } from '#lib/goods/fields.ts';
import { type SeasonTags, seasonTags } from '#lib/tag-head.ts';
import type { Book } from '../open.ts';
import { goods, lot, sale, tag } from '../schema/index.ts';
import { statement } from '../statement.ts';
import type { GoodsRow, SaleRow } from './find.ts';
import { broughtInWords, lastSeason } from './last-season.ts';
import { goodsRowsOf } from './sale-facts.ts';

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
const findHeads = statement(({ db }) =>
  db
    .selectDistinct({ head: sql<string>`rtrim(${tag.tag}, replace(${tag.tag}, ' ', ''))`.as('head') })
    .from(sale)
    .innerJoin(goods, eq(goods.saleId, sale.id))
    .innerJoin(lot, eq(lot.goodsId, goods.id))
    .innerJoin(tag, eq(tag.lotId, lot.id))
    .where(
      and(
        ...[eq(sale.season, sql.placeholder('season')), eq(goods.goods, sql.placeholder('code'))],
        isNull(tag.cameBackFromId),
      ),
    )
    .orderBy(sql`head`)
    .prepare(),
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
