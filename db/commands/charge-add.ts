import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { partyNumber, rowId, signedAmount, text } from '../inputs.ts';
import { saleById, sellerByNumber } from '../queries/find.ts';
import { saveCharge } from '../save/seller.ts';

const input = z.strictObject({
  saleId: rowId,
  sellerNo: partyNumber,
  kind: z.enum(['dues', 'advance', 'adjustment']),
  amount: signedAmount,
  how: z.enum(['deducted', 'cash']),
  note: text,
});

/** Charges a seller number dues, an advance or an adjustment: taken in cash, or from the proceeds. */
export const chargeAdd = defineCommand({
  name: 'charge.add',
  summary: 'Charges a seller number dues, an advance or an adjustment.',
  logLabel: 'Charge entered',
  stations: ['intake', 'payout', 'office'],
  input,
  run(context, { saleId, sellerNo, kind, amount: amountCents, how, note }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId');
    const seller = sellerByNumber(context.book, saleId, sellerNo);
    if (!seller) return refuse('unknown', `There is no seller number ${sellerNo}: check the card.`, 'sellerNo');
    if (amountCents < 0 && kind !== 'adjustment') {
      return refuse(
        'malformed',
        'Only an adjustment can be in the seller’s favour: enter the amount without a minus.',
        'amount',
      );
    }
    if (kind === 'adjustment' && note.trim() === '')
      return refuse('missing', 'Say what the adjustment is for.', 'note');
    return accept({ chargeId: saveCharge(context, { sellerId: seller.id, kind, amountCents, how, note }) });
  },
});
