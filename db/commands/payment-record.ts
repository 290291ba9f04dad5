import { z } from 'zod';
import { parseMoney } from '#lib/money.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { defineCommand, type Scene } from '../command.ts';
import { partyNumber, readBy, rowId, text } from '../inputs.ts';
import { buyerByNumber, personById, saleById, sellerByNumber } from '../queries/find.ts';
import { savePayment } from '../save/seller.ts';

const input = z.strictObject({
  saleId: rowId,
  direction: z.enum(['in', 'out']),
  buyerNo: partyNumber.nullable().default(null),
  sellerNo: partyNumber.nullable().default(null),
  /** Which partner was paid, where a seller number has several. */
  personId: rowId.nullable().default(null),
  method: z.enum(['cash', 'check', 'card', 'other']),
  amount: readBy((typed) => parseMoney(typed, { allowZero: false })),
  reference: text,
});

type Input = z.output<typeof input>;

/** Records money that changed hands with one buyer or one seller number. */
export const paymentRecord = defineCommand({
  name: 'payment.record',
  summary: 'Records money taken from or paid to a buyer or a seller number.',
  stations: ['till', 'payout', 'office'],
  input,
  run(scene, given) {
    const sale = saleById(scene.book, given.saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId');
    const party = partyOf(scene, given);
    if (!party.ok) return party;
    const { saleId, direction, method, amount: amountCents, reference } = given;
    const fields = { saleId, direction, ...party.value, method, amountCents, reference, paidAt: scene.at };
    return accept({ paymentId: savePayment(scene, fields) });
  },
});

interface Party {
  readonly buyerId: number | null;
  readonly sellerId: number | null;
  readonly personId: number | null;
}

function partyOf(scene: Scene, { saleId, buyerNo, sellerNo, personId }: Input): Result<Party> {
  if ((buyerNo === null) === (sellerNo === null)) {
    return refuse('missing', 'Say whose money it is: one buyer number or one seller number.', 'buyerNo');
  }
  if (personId !== null && !personById(scene.book, personId)) {
    return refuse('unknown', 'This person is not in the book: choose one of the partners.', 'personId');
  }
  const buyer = buyerNo === null ? undefined : buyerByNumber(scene.book, saleId, buyerNo);
  if (buyerNo !== null && !buyer)
    return refuse('unknown', `There is no buyer number ${buyerNo}: check the card.`, 'buyerNo');
  const seller = sellerNo === null ? undefined : sellerByNumber(scene.book, saleId, sellerNo);
  if (sellerNo !== null && !seller) {
    return refuse('unknown', `There is no seller number ${sellerNo}: check the card.`, 'sellerNo');
  }
  return accept({ buyerId: buyer?.id ?? null, sellerId: seller?.id ?? null, personId });
}
