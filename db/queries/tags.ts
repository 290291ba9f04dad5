/** Export tags of a lot, what holds it back, and where else in the book a tag stands. */
import { and, asc, eq, sql } from 'drizzle-orm';
import type { TagState } from '#lib/decide-mend.ts';
import type { TagCondition } from '#lib/facts.ts';
import { decideTags, type TagFault } from '#lib/tag-check.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { lot, tag } from '../schema/index.ts';
import { statement } from '../statement.ts';
import { type GoodsRow, goodsById, type LotRow, saleById } from './find.ts';
import { standingOutcome } from './outcome.ts';

export type TagRow = typeof tag.$inferSelect;

const ofLot = statement(({ db }) => {
  const lotId = sql.placeholder('lotId');
  return db.select().from(tag).where(eq(tag.lotId, lotId)).orderBy(asc(tag.position)).prepare();
});

export function tagsOfLot(book: Book, lotId: number): TagRow[] {
  return ofLot(book).all({ lotId });
}

type TagMarks = Pick<TagRow, 'condition' | 'brokeAt'>;

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
  const saleRegion = saleById(book, row.saleId)?.region ?? '';
  // The hammer took the tags as they were: one that broke afterwards stands only in the way of another call.
  const called = standingOutcome(book, row.id) !== undefined;
  return decideTags({
    goods,
    lot: { lotNo: lotNoOf(row), count: row.count },
    tags: tagsOfLot(book, row.id).map((one) => ({ ...one, condition: called ? one.condition : conditionNow(one) })),
    regions: tagRegions(saleRegion, row.takenIn),
    pieceCountRequired: true,
  });
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

export function placeOfTag(book: Book, canonical: string): TagPlace | undefined {
  const find = book.prepared('place of tag', () => book.sqlite.prepare<[string], PlaceCells>(PLACE));
  const found = find.get(canonical);
  if (!found) return undefined;
  const { lotNumber, lotLetter, ...place } = found;
  const kind = standingOutcome(book, place.lotId)?.kind;
  const wentHome = kind === 'passed' || kind === 'withdrawn';
  return { ...place, lotNo: lotNoOf({ lotNumber, lotLetter }), wentHome };
}

const PLACE = `
  SELECT lot.id AS lotId, lot.lot_number AS lotNumber, lot.lot_letter AS lotLetter, lot.sale_id AS saleId,
    sale.name AS saleName, seller.seller_no AS sellerNo
  FROM tag JOIN lot ON lot.id = tag.lot_id JOIN seller ON seller.id = lot.seller_id JOIN sale ON sale.id = lot.sale_id
  WHERE tag.tag = ? AND tag.live = 1`;

interface PlaceCells extends Omit<TagPlace, 'lotNo' | 'wentHome'> {
  readonly lotNumber: number;
  readonly lotLetter: string;
}

/** The lot of this sale, other than the one at hand, on which the tag stood before its piece came back elsewhere. */
export function lotOfTagInSale(
  book: Book,
  canonical: string,
  saleId: number,
): { lotId: number; lotNo: string } | undefined {
  const find = book.prepared('lot of tag in sale', (db) =>
    db
      .select({ lot })
      .from(tag)
      .innerJoin(lot, eq(lot.id, tag.lotId))
      .where(and(eq(tag.tag, sql.placeholder('tag')), eq(lot.saleId, sql.placeholder('saleId'))))
      .prepare(),
  );
  const found = find.get({ tag: canonical, saleId });
  return found && { lotId: found.lot.id, lotNo: lotNoOf(found.lot) };
}
