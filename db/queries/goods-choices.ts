/** The goods of a sale as the line at the check-in table needs them, with what such goods brought last season. */
import { and, desc, eq, sql } from 'drizzle-orm';
import type { By } from '#lib/facts.ts';
import { tagHead } from '#lib/tag-head.ts';
import type { Book } from '../open.ts';
import { goods, lot, tag } from '../schema/index.ts';
import type { GoodsRow, SaleRow } from './find.ts';
import { broughtInWords, lastSeason } from './last-season.ts';

export interface GoodsChoice {
  readonly goods: string;
  readonly name: string;
  readonly by: By;
  readonly exportTag: boolean;
  readonly seasonLimit: number | null;
  readonly sizes: readonly string[];
  readonly grades: readonly string[];
  readonly caution: string;
  /** What stands before a tag's number when the number alone is typed; empty where that is not known. */
  readonly tagHead: string;
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
  return find.all({ saleId: sale.id }).map((row) => {
    const { goods: code, name, by, exportTag, seasonLimit, sizes, grades, caution } = row;
    return {
      ...{ goods: code, name, by, exportTag, seasonLimit, sizes, grades, caution },
      tagHead: row.exportTag ? headFor(book, sale, row) : '',
      brought: broughtInWords(rows, code),
    };
  });
}

/** The newest tag of these goods in the sale's State shows how the State writes its tags this season. */
export function headFor(book: Book, { region }: SaleRow, { id, tagSpeciesCode }: GoodsRow): string {
  const head = tagHead({ region, tagSpeciesCode, newest: null });
  const find = book.prepared('newest tag of goods', (db) =>
    db
      .select({ tag: tag.tag })
      .from(tag)
      .innerJoin(lot, eq(lot.id, tag.lotId))
      .where(and(eq(lot.goodsId, sql.placeholder('goodsId')), sql`instr(${tag.tag}, ${sql.placeholder('head')}) = 1`))
      .orderBy(desc(tag.id))
      .limit(1)
      .prepare(),
  );
  return tagHead({ region, tagSpeciesCode, newest: find.get({ goodsId: id, head })?.tag ?? null });
}
