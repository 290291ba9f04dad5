import { eq, sql } from 'drizzle-orm';
import type { Scene } from '../command.ts';
import { lot, sale } from '../schema/index.ts';

/** Gives a lot its place in the running order; null puts it back where the sale's order has it. */
export function savePlace(scene: Scene, lotId: number, place: number | null): void {
  const set = scene.book.prepared('place lot', (db) =>
    db
      .update(lot)
      .set({ place: sql`${sql.placeholder('place')}`, line: sql`${sql.placeholder('line')}` })
      .where(eq(lot.id, sql.placeholder('lotId')))
      .prepare(),
  );
  set.run({ lotId, place, line: scene.line });
}

export function saveOrder(scene: Scene, saleId: number, runningOrder: string): void {
  scene.book.db.update(sale).set({ runningOrder, line: scene.line }).where(eq(sale.id, saleId)).run();
}
