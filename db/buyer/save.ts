/** A buyer, money that changes hands, the buyer's invoices, and the lots that are handed over. */
import type { CommandContext } from '#db/book/command.ts';
import { canonical } from '#db/book/log.ts';
import { insertRow, updateRow } from '#db/book/rows.ts';
import { buyer, handover, invoice, payment } from '#db/schema/index.ts';
import type { BuyerFacts } from '#lib/buyer/fields.ts';
import type { InvoicePaper } from '#lib/invoice/model.ts';
import type { Cents } from '#lib/money/money.ts';

export interface BuyerFields extends BuyerFacts {
  readonly saleId: number;
  readonly buyerNo: number;
  readonly personId: number;
  readonly cleared: boolean;
  readonly clearedBy: string;
}

export function saveBuyer(context: CommandContext, fields: BuyerFields): number {
  return insertRow(context.book, buyer, { ...fields, line: context.line });
}

/** Sets whether a buyer may buy; whoever said yes is named, and nobody where it is no. */
export function saveCleared(context: CommandContext, buyerId: number, cleared: boolean): void {
  const clearedBy = cleared ? context.worker : '';
  updateRow(context, buyer, buyerId, { cleared, clearedBy });
}

/** Sets what a buyer has shown; whether they are cleared stays as it is. */
export function saveBuyerAmended(context: CommandContext, buyerId: number, fields: BuyerFacts): void {
  updateRow(context, buyer, buyerId, fields);
}

export interface PaymentFields {
  readonly saleId: number;
  readonly direction: 'in' | 'out';
  readonly buyerId: number | null;
  readonly sellerId: number | null;
  readonly personId: number | null;
  readonly method: 'cash' | 'check' | 'card' | 'other';
  readonly amountCents: Cents;
  readonly reference: string;
  readonly paidAt: string;
}

export function savePayment(context: CommandContext, fields: PaymentFields): number {
  return insertRow(context.book, payment, { ...fields, line: context.line });
}

/** Adds the row that voids a payment, with its party and amount; gives the row's id. */
export function saveVoiding(context: CommandContext, voided: typeof payment.$inferSelect, reason: string): number {
  const { id: voidsId, ...fields } = voided;
  return insertRow(context.book, payment, { ...fields, paidAt: context.at, voidsId, reason, line: context.line });
}

interface InvoicePlace {
  readonly saleId: number;
  readonly buyerId: number;
  readonly number: number;
  /** The row of the invoice that this one corrects, or null. */
  readonly correctsId: number | null;
}

/** Freezes an invoice as RFC 8785 text, so that the same invoice is the same bytes on every machine; gives the row's id. */
export function saveInvoice(context: CommandContext, place: InvoicePlace, paper: InvoicePaper): number {
  const row = { ...place, model: canonical(paper), issuedAt: context.at, line: context.line };
  return insertRow(context.book, invoice, row);
}

export interface HandoverFields {
  readonly lotId: number;
  readonly buyerId: number;
  readonly kind: 'handed' | 'returned';
  /** The newest row of the same lot, or null for the first. */
  readonly replacesId: number | null;
  readonly takenBy: string;
  readonly reason: string;
}

/** Adds a row to the chain of a lot; gives its id. */
export function saveHandover(context: CommandContext, fields: HandoverFields): number {
  return insertRow(context.book, handover, { ...fields, at: context.at, line: context.line });
}
