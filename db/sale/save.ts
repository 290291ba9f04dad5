/** A sale with its terms and goods, how it is run, and its closing. */
import { asc, eq } from 'drizzle-orm';
import type { CommandContext } from '#db/book/command.ts';
import type { SaleRow } from '#db/book/find.ts';
import { canonical } from '#db/book/log.ts';
import { insertRow, updateRow } from '#db/book/rows.ts';
import { closing, commissionOverride, goods, sale } from '#db/schema/index.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import type { Sale, Stage } from '#lib/sale/facts.ts';
import type { GoodsFacts } from '#lib/sale/goods-fields.ts';

/** Adds a sale with its terms and the goods it takes; gives the sale's id. */
export function saveSale(context: CommandContext, facts: Sale, stage: Stage): number {
  const saleId = insertRow(context.book, sale, { ...columnsOf(facts), stage, line: context.line });
  saveOverrides(context, saleId, facts);
  return saleId;
}

/** Writes a sale and its terms anew in their place. */
export function amendSale(context: CommandContext, saleId: number, facts: Sale): void {
  const { db } = context.book;
  db.update(sale)
    .set({ ...columnsOf(facts), line: context.line })
    .where(eq(sale.id, saleId))
    .run();
  db.delete(commissionOverride).where(eq(commissionOverride.saleId, saleId)).run();
  saveOverrides(context, saleId, facts);
}

function columnsOf({ terms, ...rest }: Sale) {
  const { commission, commissionOverrides: _apart, ...figures } = terms;
  return { ...rest, ...figures, commissionMemberPct: commission.member, commissionGuestPct: commission.guest };
}

function saveOverrides({ book, line }: CommandContext, saleId: number, { terms }: Sale): void {
  for (const [code, rates] of Object.entries(terms.commissionOverrides)) {
    const row = { saleId, goods: code, memberPct: rates.member, guestPct: rates.guest, line };
    insertRow(book, commissionOverride, row);
  }
}

export function saveGoods(context: CommandContext, saleId: number, facts: GoodsFacts): number {
  return insertRow(context.book, goods, { saleId, ...facts, line: context.line });
}

/** Gives a sale the goods of another, each as it is there. */
export function copyGoods(context: CommandContext, { from, to }: { readonly from: number; readonly to: number }): void {
  const rows = context.book.db.select().from(goods).where(eq(goods.saleId, from)).orderBy(asc(goods.id)).all();
  for (const { id: _own, saleId: _from, line: _line, ...facts } of rows) saveGoods(context, to, facts);
}

/** How a house runs its sales from year to year. The days of the written bids and of the dues are of one year only. */
export function copyCustoms({ book, line }: CommandContext, before: SaleRow, saleId: number): void {
  const { runningOrder, handOverUnpaid, sellersWait, statementDays, licenceRequired } = before;
  const customs = { runningOrder, handOverUnpaid, sellersWait, statementDays, licenceRequired };
  updateRow({ book, line }, sale, saleId, customs);
}

export function saveOrder(context: CommandContext, saleId: number, runningOrder: string): void {
  updateRow(context, sale, saleId, { runningOrder });
}

/** Freezes the report of a sale that was closed; gives the row's id. */
export function saveClosed(context: CommandContext, saleId: number, report: ListPaper): number {
  return insertRow(context.book, closing, { saleId, kind: 'closed', model: canonical(report), ...byWhom(context) });
}

export function saveReopened(context: CommandContext, saleId: number, reason: string): number {
  return insertRow(context.book, closing, { saleId, kind: 'reopened', reason, ...byWhom(context) });
}

function byWhom({ worker, at, line }: CommandContext) {
  return { worker, at, line };
}
