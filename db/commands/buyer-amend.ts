import { z } from 'zod';
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { factsOfSaid } from '#lib/field/fields.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { flag, partyNumber, rowId, shapeOf } from '../inputs.ts';
import { buyerByNumber, saleById } from '../queries/find.ts';
import { saveBuyerAmended } from '../save/buyer-and-payment.ts';

const input = z.strictObject({
  saleId: rowId,
  buyerNo: partyNumber,
  ...shapeOf(BUYER_FIELDS),
  taxExempt: flag,
});

/** Sets what a buyer has shown: licence, exemption, and the limit that warns. An issued invoice stays as it is. */
export const buyerAmend = defineCommand({
  name: 'buyer.amend',
  summary: 'Sets the licence, the tax exemption and the limit of a buyer.',
  logLabel: 'Buyer amended',
  stations: ['till', 'office'],
  input,
  run(context, { saleId, buyerNo, ...fields }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId');
    const buyer = buyerByNumber(context.book, saleId, buyerNo);
    if (!buyer) return refuse('unknown', `There is no buyer number ${buyerNo}: check the card.`, 'buyerNo');
    if (fields.taxExempt && fields.exemptNo === '') {
      return refuse('missing', 'Enter the number of the exemption, as the certificate shows it.', 'exemptNo');
    }
    saveBuyerAmended(context, buyer.id, factsOfSaid(BUYER_FIELDS, fields));
    return accept({ buyerNo });
  },
});
