import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { decideVoid } from '#lib/decide-void.ts';
import { cents } from '#lib/money.ts';
import { LAST_CHECK } from '#lib/payout/decide-checks.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { rowId, someText } from '../inputs.ts';
import { saleById } from '../queries/find.ts';
import { takenCheckNumbers } from '../queries/payout-scene.ts';
import { saveVoiding } from '../save/buyer-and-payment.ts';
import { saveCheck } from '../save/settlement.ts';
import { payment, sellerCheck } from '../schema/index.ts';

const input = z.strictObject({
  checkId: rowId,
  number: z.int({ error: 'Enter the number on the new check.' }).min(1).max(LAST_CHECK),
  reason: someText,
});

/** Voids a check that was lost or spoiled, and writes another of the same amount to the same partner. */
export const checkReissue = defineCommand({
  name: 'check.reissue',
  summary: 'Voids a check with the reason and writes another in its place.',
  logLabel: 'Check written anew',
  stations: ['payout', 'office'],
  input,
  run(context, { checkId, number, reason }) {
    const { db } = context.book;
    const check = db.select().from(sellerCheck).where(eq(sellerCheck.id, checkId)).get();
    const paid = check && db.select().from(payment).where(eq(payment.id, check.paymentId)).get();
    const sale = check && saleById(context.book, check.saleId);
    if (!check || !paid || !sale)
      return refuse('unknown', 'This check is not in the book: reload the page.', 'checkId');
    const voided = db.select().from(payment).where(eq(payment.voidsId, paid.id)).get() !== undefined;
    const decided = decideVoid({ stage: sale.stage, voids: false, voided });
    if (!decided.ok) return decided;
    if (takenCheckNumbers(context.book, sale.id).has(number)) {
      return refuse('taken', `Check ${number} is written already: take the number of the new check.`, 'number');
    }
    const { sellerId, personId } = paid;
    if (sellerId === null || personId === null) throw new TypeError(`check ${check.number} was written to nobody`);
    saveVoiding(context, paid, reason);
    const place = { saleId: sale.id, number, sellerId, personId, settlementId: check.settlementId };
    const amountCents = cents(paid.amountCents);
    return accept({ checkId: saveCheck(context, { ...place, amountCents, replacesId: checkId }), number });
  },
});
