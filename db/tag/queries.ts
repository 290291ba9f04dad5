/** Export tags of a lot, what holds it back, and where else in the book a tag stands. */
import { and, asc, eq, notExists, sql } from 'drizzle-orm';
import { QueryBuilder } from 'drizzle-orm/sqlite-core';
import { type GoodsRow, goodsById, type LotRow, lotNoOf, rowsBy, saleById } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { standingOutcomeOf } from '#db/outcome/queries.ts';
import { goods, lot, sale, seller, standingOutcome as standing, tag } from '#db/schema/index.ts';
import { pick } from '#lib/field/fields.ts';
import { wentHome } from '#lib/outcome/words.ts';
import { groupBy } from '#lib/result/text.ts';
import type { TagCondition } from '#lib/sale/facts.ts';
import { decideTags, type TagFault } from '#lib/tag/check.ts';
import type { TagState } from '#lib/tag/mend.ts';

export type TagRow = typeof tag.$inferSelect;

export const tagsOfLot = rowsBy(tag, tag.position, 'lotId');

const findOpenTags = query(({ db }) =>
  db
    .select({ tag })
    .from(goods)
    .crossJoin(lot)
    .crossJoin(tag)
    .where(
      and(
        ...[equals(goods.saleId, 'saleId'), eq(goods.exportTag, true), eq(lot.goodsId, goods.id)],
        eq(tag.lotId, lot.id),
        notExists(new QueryBuilder().select({ id: standing.id }).from(standing).where(eq(standing.lotId, lot.id))),
      ),
    )
    .orderBy(asc(tag.lotId), asc(tag.position)),
);

/** The tags of the lots of a sale that are still to be called, by the lot's row. */
export function openTags(book: Book, saleId: number): Map<number, TagRow[]> {
  const rows = findOpenTags(book).all({ saleId });
  return groupBy(
    rows.map((row) => row.tag),
    ({ lotId }) => lotId,
  );
}

export type TagMarks = Pick<TagRow, 'condition' | 'brokeAt'>;

export function stateOfTag({ condition, brokeAt }: TagMarks): TagState {
  if (condition === 'broken') return brokeAt === '' ? 'broken_before' : 'replaced';
  return brokeAt === '' ? 'good' : 'waiting';
}

/** A tag that awaits its replacement counts for its piece in the book, but it is broken all the same. */
export function conditionNow(row: TagMarks): TagCondition {
  return stateOfTag(row) === 'waiting' ? 'broken' : row.condition;
}

interface SaidTag {
  readonly tag: string;
  readonly condition: TagCondition;
  readonly mended?: { readonly by: string | null };
}

/** What of a tag's row a paper says. */
export type SayableTag = Pick<TagRow, 'tag' | 'condition' | 'brokeAt' | 'replaces'>;

/** The tags of one lot as a paper says them: what each is now, and what came in the place of one since the hammer. */
export function saidTags(rows: readonly SayableTag[]): SaidTag[] {
  return rows.map((row) => {
    const said = { tag: row.tag, condition: conditionNow(row) };
    if (row.brokeAt === '') return said;
    return { ...said, mended: { by: rows.find(({ replaces }) => replaces === row.tag)?.tag ?? null } };
  });
}

/** The regions whose State may stand on the tags of a lot: where it was taken, else the sale's own. */
export function tagRegions(saleRegion: string, takenIn: string): string[] {
  return [takenIn === '' ? saleRegion : takenIn];
}

/** What holds a lot back, one fault a sentence; nothing for goods that take no tag. */
export function holdsOfLot(book: Book, row: LotRow, goods: GoodsRow): TagFault[] {
  if (!goods.exportTag) return [];
  const region = saleById(book, row.saleId)?.region ?? '';
  // The hammer took the tags as they were: one that broke afterwards stands only in the way of another call.
  const called = standingOutcomeOf(book, row.id) !== undefined;
  const tags = tagsOfLot(book, row.id);
  return holdsOfTags(row, goods, { region, tags: called ? tags : tags.map(asOpen) });
}

/** The tags of a lot, with the region of its sale. */
interface TagsRead {
  readonly region: string;
  readonly tags: readonly TagRow[];
}

function asOpen(row: TagRow): TagRow {
  return { ...row, condition: conditionNow(row) };
}

function holdsOfTags(row: LotRow, goods: GoodsRow, { region, tags }: TagsRead): TagFault[] {
  return decideTags({
    goods,
    lot: { lotNo: lotNoOf(row), count: row.count },
    tags,
    regions: tagRegions(region, row.takenIn),
    pieceCountRequired: true,
  });
}

/** The same of a lot that is still to be called, whose tags were read already. */
export function holdsOfOpenLot(row: LotRow, goods: GoodsRow, { region, tags }: TagsRead): TagFault[] {
  return holdsOfTags(row, goods, { region, tags: tags.map(asOpen) });
}

export function holdsOfLotId(book: Book, row: LotRow): TagFault[] {
  const goods = goodsById(book, row.goodsId);
  return goods ? holdsOfLot(book, row, goods) : [];
}

/** Where a tag stands now. */
export interface TagPlace {
  readonly lotId: number;
  readonly lotNo: string;
  readonly saleId: number;
  readonly saleName: string;
  readonly sellerNo: number;
  /** True where the piece went home unsold, so that the same tag may come back with it. */
  readonly wentHome: boolean;
}

const findPlace = query(({ db }) =>
  db
    .select({
      lotId: lot.id,
      ...pick(lot, ['lotNumber', 'lotLetter', 'saleId']),
      ...{ saleName: sale.name, sellerNo: seller.sellerNo },
    })
    .from(tag)
    .innerJoin(lot, eq(lot.id, tag.lotId))
    .innerJoin(seller, eq(seller.id, lot.sellerId))
    .innerJoin(sale, eq(sale.id, lot.saleId))
    // Spelled as the partial index on live tags is.
    .where(and(equals(tag.tag, 'tag'), sql`live = 1`)),
);

export function placeOfTag(book: Book, canonical: string): TagPlace | undefined {
  const found = findPlace(book).get({ tag: canonical });
  if (!found) return undefined;
  const { lotNumber, lotLetter, ...place } = found;
  const standing = standingOutcomeOf(book, place.lotId);
  const home = standing !== undefined && wentHome(standing);
  return { ...place, lotNo: lotNoOf({ lotNumber, lotLetter }), wentHome: home };
}

const findInSale = query(({ db }) =>
  db
    .select(pick(lot, ['id', 'lotNumber', 'lotLetter']))
    .from(tag)
    .innerJoin(lot, eq(lot.id, tag.lotId))
    .where(and(equals(tag.tag, 'tag'), equals(lot.saleId, 'saleId'))),
);

/** The lot of this sale, other than the one at hand, on which the tag stood before its piece came back elsewhere. */
export function lotOfTagInSale(book: Book, canonical: string, saleId: number) {
  const found = findInSale(book).get({ tag: canonical, saleId });
  return found && { lotId: found.id, lotNo: lotNoOf(found) };
}
