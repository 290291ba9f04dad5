import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { decideVoid } from '#lib/decide-void.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { rowId, someText } from '../inputs.ts';
import { saleById } from '../queries/find.ts';
import { saveVoiding } from '../save/buyer-and-payment.ts';
import { dues, payment } from '../schema/index.ts';

const input = z.strictObject({ paymentId: rowId, reason: someText });

/** Takes a payment back by a further row, with the reason; both rows stay. */
export const paymentVoid = defineCommand({
  name: 'payment.void',
  summary: 'Voids a payment, with the reason.',
  logLabel: 'Payment voided',
  stations: ['till', 'payout', 'office'],
  input,
  run(context, { paymentId, reason }) {
    const { db } = context.book;
    const row = db.select().from(payment).where(eq(payment.id, paymentId)).get();
    const sale = row && saleById(context.book, row.saleId);
    if (!row || !sale) return refuse('unknown', 'This payment is not in the book: reload the page.', 'paymentId');
    if (db.select().from(dues).where(eq(dues.paymentId, paymentId)).get()) {
      return refuse('not_allowed', 'This payment was somebody’s dues: take the dues back at Intake.', 'paymentId');
    }
    const voided = db.select().from(payment).where(eq(payment.voidsId, paymentId)).get() !== undefined;
    const decided = decideVoid({ stage: sale.stage, voids: row.voidsId !== null, voided });
    if (!decided.ok) return decided;
    return accept({ paymentId: saveVoiding(context, row, reason), voidsId: paymentId });
  },
});
