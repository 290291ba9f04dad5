/** A sale with its terms and goods, how it is run, and its closing. */
import { asc, eq } from 'drizzle-orm';
import type { Sale, Stage } from '#lib/facts.ts';
import type { GoodsFacts } from '#lib/goods/fields.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import type { Scene } from '../command.ts';
import { canonical } from '../log.ts';
import type { SaleRow } from '../queries/find.ts';
import { insertRow } from '../rows.ts';
import { closing, commissionOverride, goods, sale } from '../schema/index.ts';

/** Adds a sale with its terms and the goods it takes; gives the sale's id. */
export function saveSale(scene: Scene, facts: Sale, stage: Stage): number {
  const saleId = insertRow(scene.book, sale, { ...columnsOf(facts), stage, line: scene.line });
  saveOverrides(scene, saleId, facts);
  return saleId;
}

/** Writes a sale and its terms anew in their place. */
export function amendSale(scene: Scene, saleId: number, facts: Sale): void {
  const { db } = scene.book;
  db.update(sale)
    .set({ ...columnsOf(facts), line: scene.line })
    .where(eq(sale.id, saleId))
    .run();
  db.delete(commissionOverride).where(eq(commissionOverride.saleId, saleId)).run();
  saveOverrides(scene, saleId, facts);
}

function columnsOf({ terms, ...rest }: Sale) {
  const { commission, commissionOverrides: _apart, ...figures } = terms;
  return { ...rest, ...figures, commissionMemberPct: commission.member, commissionGuestPct: commission.guest };
}

function saveOverrides({ book, line }: Scene, saleId: number, { terms }: Sale): void {
  for (const [code, rates] of Object.entries(terms.commissionOverrides)) {
    const row = { saleId, goods: code, memberPct: rates.member, guestPct: rates.guest, line };
    insertRow(book, commissionOverride, row);
  }
}

export function saveGoods(scene: Scene, saleId: number, facts: GoodsFacts): number {
  return insertRow(scene.book, goods, { saleId, ...facts, line: scene.line });
}

/** Gives a sale the goods of another, each as it is there. */
export function copyGoods(scene: Scene, { from, to }: { readonly from: number; readonly to: number }): void {
  const rows = scene.book.db.select().from(goods).where(eq(goods.saleId, from)).orderBy(asc(goods.id)).all();
  for (const { id: _own, saleId: _from, line: _line, ...facts } of rows) saveGoods(scene, to, facts);
}

/** How a house runs its sales from year to year. The days of the written bids and of the dues are of one year only. */
export function copyCustoms({ book, line }: Scene, before: SaleRow, saleId: number): void {
  const { runningOrder, handOverUnpaid, sellersWait, statementDays, licenceRequired } = before;
  const customs = { runningOrder, handOverUnpaid, sellersWait, statementDays, licenceRequired };
  book.db
    .update(sale)
    .set({ ...customs, line })
    .where(eq(sale.id, saleId))
    .run();
}

export function saveOrder(scene: Scene, saleId: number, runningOrder: string): void {
  scene.book.db.update(sale).set({ runningOrder, line: scene.line }).where(eq(sale.id, saleId)).run();
}

/** Freezes the report of a sale that was closed; gives the row's id. */
export function saveClosed(scene: Scene, saleId: number, report: ListPaper): number {
  return insertRow(scene.book, closing, { saleId, kind: 'closed', model: canonical(report), ...byWhom(scene) });
}

export function saveReopened(scene: Scene, saleId: number, reason: string): number {
  return insertRow(scene.book, closing, { saleId, kind: 'reopened', reason, ...byWhom(scene) });
}

function byWhom({ worker, at, line }: Scene) {
  return { worker, at, line };
}
