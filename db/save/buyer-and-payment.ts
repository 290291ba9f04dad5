/** What changes about a buyer after registering, and the row that takes a payment back. */
import { eq } from 'drizzle-orm';
import type { BuyerFacts } from '#lib/buyer/fields.ts';
import type { Scene } from '../command.ts';
import { insertRow } from '../rows.ts';
import { buyer, payment } from '../schema/index.ts';

/** Sets whether a buyer may buy; whoever said yes is named, and nobody where it is no. */
export function saveCleared(scene: Scene, buyerId: number, cleared: boolean): void {
  const clearedBy = cleared ? scene.worker : '';
  scene.book.db.update(buyer).set({ cleared, clearedBy, line: scene.line }).where(eq(buyer.id, buyerId)).run();
}

/** Sets what a buyer has shown; whether they are cleared stays as it is. */
export function saveBuyerAmended(scene: Scene, buyerId: number, fields: BuyerFacts): void {
  scene.book.db
    .update(buyer)
    .set({ ...fields, line: scene.line })
    .where(eq(buyer.id, buyerId))
    .run();
}

/** Adds the row that voids a payment, with its party and amount; gives the row's id. */
export function saveVoiding(scene: Scene, voided: typeof payment.$inferSelect, reason: string): number {
  const { id: voidsId, ...fields } = voided;
  return insertRow(scene.book, payment, { ...fields, paidAt: scene.at, voidsId, reason, line: scene.line });
}
