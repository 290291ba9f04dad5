import * as z from 'zod';
import { saveTaking, saveTakingVoiding } from '#db/account/post.ts';
import { defineCommand, defineSaleCommand } from '#db/book/command.ts';
import { rowBy, saleById } from '#db/book/find.ts';
import { price, rowId, someReason, text } from '#db/book/inputs.ts';
import { taking } from '#db/schema/index.ts';
import { decideVoid } from '#lib/payment/decide-payment.ts';
import { decideTaking, TAKING_KINDS } from '#lib/payment/taking.ts';
import { accept, refuse } from '#lib/result/result.ts';

/** Records money that came in and is nobody's purchase. It lies in the drawer like any other. */
export const takingRecord = defineSaleCommand({
  name: 'taking.record',
  summary: 'Records money that is nobody’s purchase: a raffle, the door, a donation, food, or other with a note.',
  logLabel: 'Taking',
  stations: ['till', 'office'],
  untilClosed: true,
  input: z.strictObject({
    saleId: rowId,
    kind: z.enum(TAKING_KINDS),
    method: z.enum(['cash', 'check', 'card', 'other']).default('cash'),
    amount: price,
    /** The number of the check, or what it is; of `other` it has to be said. */
    note: text,
  }),
  run(context, { saleId, kind, method, amount: amountCents, note }) {
    const decided = decideTaking({ kind, note });
    if (!decided.ok) return decided;
    return accept({ takingId: saveTaking(context, { saleId, kind, method, amountCents, note, at: context.at }) });
  },
});

const takingById = rowBy(taking, 'id');
const takingThatVoids = rowBy(taking, 'voidsId');

/** Takes a taking back by a further row, with the reason; both rows stay. */
export const takingVoid = defineCommand({
  name: 'taking.void',
  summary: 'Voids a taking, with the reason.',
  logLabel: 'Taking voided',
  stations: ['till', 'office'],
  input: z.strictObject({ takingId: rowId, reason: someReason }),
  run(context, { takingId, reason }) {
    const row = takingById(context.book, takingId);
    const sale = row && saleById(context.book, row.saleId);
    if (!row || !sale) return refuse('unknown', 'This taking is not in the book: reload the page.', 'takingId');
    const voided = takingThatVoids(context.book, takingId) !== undefined;
    const decided = decideVoid({ stage: sale.stage, voids: row.voidsId !== null, voided }, 'taking');
    if (!decided.ok) return decided;
    return accept({ takingId: saveTakingVoiding(context, row, reason), voidsId: takingId });
  },
});
