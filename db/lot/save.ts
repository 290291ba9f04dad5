/** A lot, its place in the running order, its export tags, and what becomes of one of them after the lot was called. */
import { and, eq } from 'drizzle-orm';
import type { CommandContext } from '#db/book/command.ts';
import { equals, query } from '#db/book/open.ts';
import { givenLater, insertRow, updateRow } from '#db/book/rows.ts';
import { lot, tag } from '#db/schema/index.ts';
import type { TagRow } from '#db/tag/queries.ts';
import type { LotSaid } from '#lib/lot/fields.ts';
import { type LotNo, splitLotNo } from '#lib/lot/number.ts';
import type { TagCondition } from '#lib/sale/facts.ts';
import { parseTag } from '#lib/tag/number.ts';

/** The columns of a lot beside its number and whose it is. */
export type LotFields = Pick<typeof lot.$inferInsert, Exclude<keyof LotSaid, 'goods'> | 'goodsId'> &
  Omit<LotSaid, 'goods'>;

interface LotPlace {
  readonly saleId: number;
  readonly sellerId: number;
  readonly lotNo: LotNo;
}

export function saveLot(context: CommandContext, place: LotPlace, fields: LotFields): number {
  const { number: lotNumber, letter: lotLetter } = splitLotNo(place.lotNo);
  const { saleId, sellerId } = place;
  return insertRow(context.book, lot, { saleId, sellerId, lotNumber, lotLetter, ...fields, line: context.line });
}

const placeOfLot = query(({ db }) =>
  db
    .update(lot)
    .set(givenLater({ place: lot.place, line: lot.line }))
    .where(equals(lot.id, 'lotId')),
);

/** Gives a lot its place in the running order; null puts it back where the sale's order has it. */
export function savePlace({ book, line }: CommandContext, lotId: number, place: number | null): void {
  placeOfLot(book).run({ lotId, place, line });
}

export interface TagFields {
  readonly tag: string;
  readonly condition: TagCondition;
  /** The lot in which the piece went home unsold before, whose row gives way to this one. */
  readonly cameBackFromId: number | null;
}

/** Puts tags behind those a lot already has, in the order given. */
export function saveTags(context: CommandContext, lotId: number, tags: readonly TagFields[]): void {
  for (const [position, fields] of tags.entries()) {
    if (fields.cameBackFromId !== null) retireOlder(context, fields.tag);
    insertRow(context.book, tag, { lotId, position, ...fields, live: true, line: context.line });
  }
}

/**
 * Puts another list of tags in the place of the one a lot has. A tag that had come back from another year and is
 * taken off again lives on the lot where it stood before.
 */
export function replaceTags(context: CommandContext, lotId: number, tags: readonly TagFields[]): void {
  const { db } = context.book;
  const cameBack = new Map<string, number>();
  for (const row of db.select().from(tag).where(eq(tag.lotId, lotId)).all()) {
    if (row.cameBackFromId !== null) cameBack.set(row.tag, row.cameBackFromId);
  }
  db.delete(tag).where(eq(tag.lotId, lotId)).run();
  for (const [canonical, formerLotId] of cameBack) reviveOlder(context, canonical, formerLotId);
  saveTags(
    context,
    lotId,
    tags.map((fields) => ({ ...fields, cameBackFromId: cameBack.get(fields.tag) ?? fields.cameBackFromId })),
  );
}

function reviveOlder(context: CommandContext, canonical: string, lotId: number): void {
  const older = and(eq(tag.tag, canonical), eq(tag.lotId, lotId));
  context.book.db.update(tag).set({ live: true, line: context.line }).where(older).run();
}

/** A live row marks where a piece is now: when it comes back, the row of its former lot is history. */
function retireOlder(context: CommandContext, canonical: string): void {
  context.book.db.update(tag).set({ live: false, line: context.line }).where(eq(tag.tag, canonical)).run();
}

/** The tag counts for its piece until its replacement is entered, so that the lot has as many tags as pieces. */
export function saveBroken(context: CommandContext, row: TagRow): void {
  updateRow(context, tag, row.id, { brokeAt: context.at });
}

/** The replacement stands where the tag stood, and the tag stays on record beside it. */
export function saveReplacement(context: CommandContext, row: TagRow, replacement: string): void {
  updateRow(context, tag, row.id, { condition: 'broken', brokeAt: row.brokeAt === '' ? context.at : row.brokeAt });
  const { lotId, position } = row;
  const fields = { tag: replacement, condition: 'replacement', live: true, replaces: row.tag } as const;
  insertRow(context.book, tag, { lotId, position, ...fields, line: context.line });
}

/** The tag is as it was at the hammer; a replacement that was entered for it is off. */
export function saveWhole(context: CommandContext, row: TagRow): void {
  const replacement = and(eq(tag.lotId, row.lotId), eq(tag.replaces, row.tag));
  context.book.db.delete(tag).where(replacement).run();
  const parsed = parseTag(row.tag);
  const federal = row.replaces !== '' || (parsed.ok && parsed.value.replacement);
  updateRow(context, tag, row.id, { condition: federal ? 'replacement' : 'intact', brokeAt: '' });
}
