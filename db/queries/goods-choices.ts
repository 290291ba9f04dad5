/** The goods of a sale as the line at the check-in table needs them, with what such goods brought last season. */
import { eq, sql } from 'drizzle-orm';
import type { By } from '#lib/facts.ts';
import { type Facts, factsOfRow, pick } from '#lib/field/fields.ts';
import { GOODS_FIELDS } from '#lib/goods/fields.ts';
import { type SeasonTags, seasonTags } from '#lib/tag-head.ts';
import type { Book } from '../open.ts';
import { goods } from '../schema/index.ts';
import type { GoodsRow, SaleRow } from './find.ts';
import { broughtInWords, lastSeason } from './last-season.ts';

const CHOSEN = pick(GOODS_FIELDS, ['goods', 'name', 'by', 'exportTag', 'seasonLimit', 'sizes', 'grades', 'caution']);

export interface GoodsChoice extends Facts<typeof CHOSEN> {
  /** How their tags read this season; null where they take none. */
  readonly seasonTags: SeasonTags | null;
  /** Last season's prices in words, by what a price stands for; empty where there were none. */
  readonly brought: Readonly<Record<By, string>>;
}

export function goodsChoices(book: Book, sale: SaleRow): GoodsChoice[] {
  const rows = lastSeason(book, sale);
  const find = book.prepared('goods of sale', (db) =>
    db
      .select()
      .from(goods)
      .where(eq(goods.saleId, sql.placeholder('saleId')))
      .orderBy(goods.id)
      .prepare(),
  );
  return find.all({ saleId: sale.id }).map((row) => ({
    ...factsOfRow(CHOSEN, row),
    seasonTags: row.exportTag ? tagsOfSeason(book, sale, row) : null,
    brought: broughtInWords(rows, row.goods),
  }));
}

/** What the tags of such goods that came in this season show, whichever of its sales they came to. */
export function tagsOfSeason(book: Book, { region, season }: SaleRow, row: GoodsRow): SeasonTags {
  const find = book.prepared('heads of season tags', () =>
    book.sqlite.prepare<[string, string], string>(HEADS).pluck(),
  );
  return seasonTags({ region, season, tagSpeciesCode: row.tagSpeciesCode, heads: find.all(season, row.goods) });
}

// The head is what is left of a tag when all behind its last space is taken off. A piece that came back bears the tag of
// an earlier season, which says nothing of this one.
const HEADS = `
  SELECT DISTINCT rtrim(tag.tag, replace(tag.tag, ' ', ''))
  FROM sale JOIN goods ON goods.sale_id = sale.id JOIN lot ON lot.goods_id = goods.id JOIN tag ON tag.lot_id = lot.id
  WHERE sale.season = ? AND goods.goods = ? AND tag.came_back_from_id IS NULL
  ORDER BY 1`;
