/** What the papers of a buyer are drawn from: issued invoices, a payment with its circumstances, the purchase record. */
import { and, desc, eq, lt } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import type { ReceiptPayment } from '#lib/buyer/receipt.ts';
import { cents } from '#lib/money.ts';
import type { Book } from '../open.ts';
import { buyer, invoice, log, payment } from '../schema/index.ts';

/** A payment of a buyer with whose it is; its time is still the moment in UTC. */
export interface BuyerPayment extends Omit<ReceiptPayment, 'paidOn' | 'paidTime'> {
  readonly saleId: number;
  readonly buyerNo: number;
  readonly paidAt: string;
}

/** One payment of a buyer by its row, or undefined where there is none or the row takes another back. */
export function buyerPayment(book: Book, paymentId: number): BuyerPayment | undefined {
  const voiding = alias(payment, 'voiding');
  const { saleId, direction, method, amountCents, reference, paidAt, line, voidsId, buyerId } = payment;
  const row = book.db
    .select({
      ...{ paymentId: payment.id, saleId, direction, method, amountCents, reference, paidAt, line, voidsId, buyerId },
      ...{ buyerNo: buyer.buyerNo, worker: log.worker, voided: voiding.reason },
    })
    .from(payment)
    .innerJoin(buyer, eq(buyer.id, payment.buyerId))
    .leftJoin(log, eq(log.seq, payment.line))
    .leftJoin(voiding, eq(voiding.voidsId, payment.id))
    .where(eq(payment.id, paymentId))
    .get();
  if (!row || row.voidsId !== null) return undefined;
  const { line: at, voidsId: _, buyerId: who, worker, ...rest } = row;
  return {
    ...rest,
    amountCents: cents(row.amountCents),
    worker: worker ?? '',
    invoiceNumber: who === null ? null : invoiceBefore(book, who, at),
  };
}

/** The newest invoice of a buyer when a line of the log was written. */
function invoiceBefore(book: Book, buyerId: number, line: number): number | null {
  const row = book.db
    .select({ number: invoice.number })
    .from(invoice)
    .where(and(eq(invoice.buyerId, buyerId), lt(invoice.line, line)))
    .orderBy(desc(invoice.number))
    .limit(1)
    .get();
  return row?.number ?? null;
}
