import { z } from 'zod';
import { decideReturn } from '#lib/buyer/decide-handover.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { lotNumber, rowId, someText } from '../inputs.ts';
import { buyerByNumber, lotByNumber, saleById } from '../queries/find.ts';
import { newestHandover } from '../queries/handed.ts';
import { saveHandover } from '../save/buyer-and-payment.ts';

const input = z.strictObject({ saleId: rowId, lotNo: lotNumber, reason: someText });

/** Takes a lot back over the counter, with the reason: handed over by mistake, or brought back. */
export const handoverReturn = defineCommand({
  name: 'handover.return',
  summary: 'Takes a lot back that was handed over, with the reason.',
  logLabel: 'Taken back',
  stations: ['till', 'office'],
  input,
  run(context, { saleId, lotNo, reason }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const lot = lotByNumber(context.book, saleId, lotNo);
    if (!lot) return refuse('unknown', `There is no lot ${lotNo} in this sale: check the ticket.`, 'lotNo');
    const newest = newestHandover(context.book, lot.id);
    const decided = decideReturn({ stage: sale.stage, lotNo, handed: newest?.kind === 'handed' });
    if (!decided.ok) return decided;
    const buyer = newest && buyerByNumber(context.book, saleId, newest.buyerNo);
    if (!newest || !buyer) throw new RangeError(`lot ${lotNo} was handed to nobody`);
    const fields = { lotId: lot.id, buyerId: buyer.id, kind: 'returned', replacesId: newest.handoverId } as const;
    return accept({ handoverId: saveHandover(context, { ...fields, takenBy: '', reason }), lotNo });
  },
});
