import { and, eq } from 'drizzle-orm';
import type { TagCondition } from '#lib/facts.ts';
import type { LotSaid } from '#lib/lot/fields.ts';
import { type LotNo, splitLotNo } from '#lib/lot-number.ts';
import type { Scene } from '../command.ts';
import { insertRow } from '../rows.ts';
import { lot, tag } from '../schema/index.ts';

/** The columns of a lot beside its number and whose it is. */
export type LotFields = Pick<typeof lot.$inferInsert, Exclude<keyof LotSaid, 'goods'> | 'goodsId'> &
  Omit<LotSaid, 'goods'>;

interface LotPlace {
  readonly saleId: number;
  readonly sellerId: number;
  readonly lotNo: LotNo;
}

export function saveLot(scene: Scene, place: LotPlace, fields: LotFields): number {
  const { number: lotNumber, letter: lotLetter } = splitLotNo(place.lotNo);
  const { saleId, sellerId } = place;
  return insertRow(scene.book, lot, { saleId, sellerId, lotNumber, lotLetter, ...fields, line: scene.line });
}

export interface TagFields {
  readonly tag: string;
  readonly condition: TagCondition;
  /** The lot in which the piece went home unsold before, whose row gives way to this one. */
  readonly cameBackFromId: number | null;
}

/** Puts tags behind those a lot already has, in the order given. */
export function saveTags(scene: Scene, lotId: number, tags: readonly TagFields[]): void {
  for (const [position, fields] of tags.entries()) {
    if (fields.cameBackFromId !== null) retireOlder(scene, fields.tag);
    insertRow(scene.book, tag, { lotId, position, ...fields, live: true, line: scene.line });
  }
}

/**
 * Puts another list of tags in the place of the one a lot has. A tag that had come back from another year and is
 * taken off again lives on the lot where it stood before.
 */
export function replaceTags(scene: Scene, lotId: number, tags: readonly TagFields[]): void {
  const { db } = scene.book;
  const cameBack = new Map<string, number>();
  for (const row of db.select().from(tag).where(eq(tag.lotId, lotId)).all()) {
    if (row.cameBackFromId !== null) cameBack.set(row.tag, row.cameBackFromId);
  }
  db.delete(tag).where(eq(tag.lotId, lotId)).run();
  for (const [canonical, formerLotId] of cameBack) reviveOlder(scene, canonical, formerLotId);
  saveTags(
    scene,
    lotId,
    tags.map((fields) => ({ ...fields, cameBackFromId: cameBack.get(fields.tag) ?? fields.cameBackFromId })),
  );
}

function reviveOlder(scene: Scene, canonical: string, lotId: number): void {
  const older = and(eq(tag.tag, canonical), eq(tag.lotId, lotId));
  scene.book.db.update(tag).set({ live: true, line: scene.line }).where(older).run();
}

/** A live row marks where a piece is now: when it comes back, the row of its former lot is history. */
function retireOlder(scene: Scene, canonical: string): void {
  scene.book.db.update(tag).set({ live: false, line: scene.line }).where(eq(tag.tag, canonical)).run();
}
