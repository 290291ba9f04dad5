/** A buyer, money that changes hands, the buyer's invoices, and the lots that are handed over. */
import type { CommandContext } from '#db/book/command.ts';
import { canonical } from '#db/book/log.ts';
import { insertRow, type NewRow } from '#db/book/rows.ts';
import { buyer, handover, invoice, payment } from '#db/schema/index.ts';
import type { InvoicePaper } from '#lib/invoice/model.ts';

export function saveBuyer(context: CommandContext, fields: NewRow<typeof buyer>): number {
  return insertRow(context.book, buyer, { ...fields, line: context.line });
}

export function savePayment(context: CommandContext, fields: NewRow<typeof payment>): number {
  return insertRow(context.book, payment, { ...fields, line: context.line });
}

/** Adds the row that voids a payment, with its party and amount; gives the row's id. */
export function saveVoiding(context: CommandContext, voided: typeof payment.$inferSelect, reason: string): number {
  const { id: voidsId, ...fields } = voided;
  return insertRow(context.book, payment, { ...fields, paidAt: context.at, voidsId, reason, line: context.line });
}

/** Freezes an invoice as RFC 8785 text, so that the same invoice is the same bytes on every machine; gives the row's id. */
export function saveInvoice(
  context: CommandContext,
  place: Omit<NewRow<typeof invoice>, 'model' | 'issuedAt'>,
  paper: InvoicePaper,
): number {
  const row = { ...place, model: canonical(paper), issuedAt: context.at, line: context.line };
  return insertRow(context.book, invoice, row);
}

/** Adds a row to the chain of a lot, which names the newest one before it; gives its id. */
export function saveHandover(context: CommandContext, fields: Omit<NewRow<typeof handover>, 'at'>): number {
  return insertRow(context.book, handover, { ...fields, at: context.at, line: context.line });
}
