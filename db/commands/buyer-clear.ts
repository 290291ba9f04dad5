import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { flag, partyNumber, rowId } from '../inputs.ts';
import { buyerByNumber, saleById } from '../queries/find.ts';
import { saveCleared } from '../save/buyer-and-payment.ts';

const input = z.strictObject({ saleId: rowId, buyerNo: partyNumber, cleared: flag });

/** Clears a buyer to buy, in the name of the worker, or takes the clearance back. */
export const buyerClear = defineCommand({
  name: 'buyer.clear',
  summary: 'Says whether a buyer is cleared to buy.',
  logLabel: 'Buyer cleared',
  stations: ['till', 'office'],
  input,
  run(context, { saleId, buyerNo, cleared }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId');
    const buyer = buyerByNumber(context.book, saleId, buyerNo);
    if (!buyer) return refuse('unknown', `There is no buyer number ${buyerNo}: check the card.`, 'buyerNo');
    if (buyer.cleared === cleared) {
      return refuse('already', `Buyer ${buyerNo} is ${cleared ? 'already' : 'not'} cleared.`, 'cleared');
    }
    saveCleared(context, buyer.id, cleared);
    return accept({ buyerNo, cleared });
  },
});
