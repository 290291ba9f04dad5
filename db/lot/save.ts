/** A lot, its place in the running order, its export tags, and what becomes of one of them after the lot was called. */
import { and, eq } from 'drizzle-orm';
import type { CommandContext } from '#db/book/command.ts';
import type { LotRow } from '#db/book/find.ts';
import { equals, query } from '#db/book/open.ts';
import { addRow, givenLater, updateRow } from '#db/book/rows.ts';
import { lot, tag } from '#db/schema/index.ts';
import { type TagRow, tagsOfLot } from '#db/tag/queries.ts';
import type { LotSaid } from '#lib/lot/fields.ts';
import { type LotNo, splitLotNo } from '#lib/lot/number.ts';
import { parseTag } from '#lib/tag/number.ts';

/** The columns of a lot beside its number and whose it is. */
export type LotFields = Pick<typeof lot.$inferInsert, Exclude<keyof LotSaid, 'goods'> | 'goodsId'> &
  Omit<LotSaid, 'goods'> & { readonly formerNumbers?: string };

type LotPlace = Pick<LotRow, 'saleId' | 'sellerId'> & { readonly lotNo: LotNo };

export function saveLot(context: CommandContext, { saleId, sellerId, lotNo }: LotPlace, fields: LotFields): number {
  const { number: lotNumber, letter: lotLetter } = splitLotNo(lotNo);
  return addRow(context, lot, { saleId, sellerId, lotNumber, lotLetter, ...fields });
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

/** `cameBackFromId` is the lot in which the piece went home unsold before, whose row gives way to this one. */
export type TagFields = Pick<TagRow, 'tag' | 'condition' | 'cameBackFromId'>;

/** Puts tags behind those a lot already has, in the order given. */
export function saveTags(context: CommandContext, lotId: number, tags: readonly TagFields[]): void {
  for (const [position, fields] of tags.entries()) {
    if (fields.cameBackFromId !== null) {
      // A live row marks where a piece is now: when it comes back, the row of its former lot is history.
      context.book.db.update(tag).set({ live: false, line: context.line }).where(eq(tag.tag, fields.tag)).run();
    }
    addRow(context, tag, { lotId, position, ...fields, live: true });
  }
}

/**
 * Puts another list of tags in the place of the one a lot has. A tag that had come back from another year and is
 * taken off again lives on the lot where it stood before.
 */
export function replaceTags(context: CommandContext, lotId: number, tags: readonly TagFields[]): void {
  const { db } = context.book;
  const cameBack = new Map<string, number>();
  for (const row of tagsOfLot(context.book, lotId)) {
    if (row.cameBackFromId !== null) cameBack.set(row.tag, row.cameBackFromId);
  }
  db.delete(tag).where(eq(tag.lotId, lotId)).run();
  for (const [canonical, formerLotId] of cameBack) {
    const older = and(eq(tag.tag, canonical), eq(tag.lotId, formerLotId));
    db.update(tag).set({ live: true, line: context.line }).where(older).run();
  }
  saveTags(
    context,
    lotId,
    tags.map((fields) => ({ ...fields, cameBackFromId: cameBack.get(fields.tag) ?? fields.cameBackFromId })),
  );
}

/** The replacement stands where the tag stood, and the tag stays on record beside it. */
export function saveReplacement(context: CommandContext, row: TagRow, replacement: string): void {
  updateRow(context, tag, row.id, { condition: 'broken', brokeAt: row.brokeAt === '' ? context.at : row.brokeAt });
  const { lotId, position } = row;
  addRow(context, tag, { lotId, position, tag: replacement, condition: 'replacement', live: true, replaces: row.tag });
}

/** The tag is as it was at the hammer; a replacement that was entered for it is off. */
export function saveWhole(context: CommandContext, row: TagRow): void {
  const replacement = and(eq(tag.lotId, row.lotId), eq(tag.replaces, row.tag));
  context.book.db.delete(tag).where(replacement).run();
  const parsed = parseTag(row.tag);
  const federal = row.replaces !== '' || (parsed.ok && parsed.value.replacement);
  updateRow(context, tag, row.id, { condition: federal ? 'replacement' : 'intact', brokeAt: '' });
}
