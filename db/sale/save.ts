/** A sale with its terms and goods, and how it is run. */
import { eq } from 'drizzle-orm';
import type { CommandContext } from '#db/book/command.ts';
import type { SaleRow } from '#db/book/find.ts';
import { addRow, updateRow } from '#db/book/rows.ts';
import { commissionOverride, goods, sale } from '#db/schema/index.ts';
import { pick } from '#lib/field/fields.ts';
import type { Sale, Stage } from '#lib/sale/facts.ts';
import { goodsRowsOf } from './facts.ts';

/** Adds a sale with its terms and the goods it takes; gives the sale's id. */
export function saveSale(context: CommandContext, facts: Sale, stage: Stage): number {
  const saleId = addRow(context, sale, { ...columnsOf(facts), stage });
  saveOverrides(context, saleId, facts);
  return saleId;
}

/** Writes a sale and its terms anew in their place. */
export function amendSale(context: CommandContext, saleId: number, facts: Sale): void {
  updateRow(context, sale, saleId, columnsOf(facts));
  context.book.db.delete(commissionOverride).where(eq(commissionOverride.saleId, saleId)).run();
  saveOverrides(context, saleId, facts);
}

function columnsOf({ terms, ...rest }: Sale) {
  const { commission, commissionOverrides: _apart, ...figures } = terms;
  return { ...rest, ...figures, commissionMemberPct: commission.member, commissionGuestPct: commission.guest };
}

function saveOverrides(context: CommandContext, saleId: number, { terms }: Sale): void {
  for (const [code, rates] of Object.entries(terms.commissionOverrides)) {
    addRow(context, commissionOverride, { saleId, goods: code, memberPct: rates.member, guestPct: rates.guest });
  }
}

/** Gives a sale the goods of another, each as it is there. */
export function copyGoods(context: CommandContext, { from, to }: { readonly from: number; readonly to: number }): void {
  for (const { id: _own, saleId: _from, line: _line, ...facts } of goodsRowsOf(context.book, from)) {
    addRow(context, goods, { saleId: to, ...facts });
  }
}

/** How a house runs its sales from year to year. The days of the written bids and of the dues are of one year only. */
export function copyCustoms(context: CommandContext, before: SaleRow, saleId: number): void {
  const customs = [
    'runningOrder',
    'handOverUnpaid',
    'sellersWait',
    'statementDays',
    'licenceRequired',
    'noAnswer',
  ] as const;
  updateRow(context, sale, saleId, pick(before, customs));
}
