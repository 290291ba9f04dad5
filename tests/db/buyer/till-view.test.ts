import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { buyerView, tillView } from '#db/buyer/queries.ts';
import { openHall } from '#tests/support/hall.ts';

describe('the till', () => {
  const { book, must, saleId } = openHall();
  const sale = saleById(book, saleId);
  if (!sale) throw new Error('the sale is gone');
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '12' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.75', buyerNo: 10 });
  const paid = { saleId, direction: 'in', buyerNo: 10, method: 'cash', amount: '50.00' } as const;

  it('shows a buyer’s lots with premium and tax, and what is owing', () => {
    // 12 × 7.75 = 93.00; 5 % premium 4.65; 6.5 % of 97.65 is 6.347, rounded to 6.35.
    expect(buyerView(book, sale, 10)).toMatchObject({
      ...{ name: 'Bea Cole', amountCents: 9300, premiumCents: 465, taxCents: 635, totalCents: 10_400 },
      ...{ paidCents: 0, owingCents: 10_400, due: { direction: 'in', amount: '104.00' } },
      bought: [{ lotNo: '1', goods: 'Raccoon', quantity: '12 pieces', price: '7.75 each', amount: '93.00' }],
    });
    expect(buyerView(book, sale, 99)).toBeUndefined();
  });

  it('counts what was paid and not voided, keeps the voided to be read, and says when money goes back', () => {
    must('payment.record', paid);
    const check = {
      ...paid,
      amount: '60.00',
      method: 'check',
      reference: '1041',
      answered: ['more_than_owed'],
    } as const;
    must('payment.record', check);
    expect(buyerView(book, sale, 10)).toMatchObject({ owingCents: -600, due: { direction: 'out', amount: '6.00' } });
    must('payment.void', { paymentId: 2, reason: 'check taken back' });
    expect(buyerView(book, sale, 10)).toMatchObject({
      owingCents: 5400,
      payments: [
        { amount: '50.00', voided: null },
        { amount: '60.00', reference: '1041', voided: 'check taken back' },
      ],
    });
    must('payment.record', { ...paid, amount: '54.00' });
    expect(buyerView(book, sale, 10)).toMatchObject({ owingCents: 0, due: null });
  });

  it('lists every buyer, and warns beyond a limit', () => {
    const { personId } = must('person.enrol', { name: 'Dee Elm' });
    must('buyer.register', {
      saleId,
      buyerNo: 13,
      personId,
      limit: '10.00',
      taxExempt: true,
      exemptNo: 'X1',
      cleared: true,
    });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '2' });
    must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '7.75', buyerNo: 13 });
    // 15.50 and 5 % premium, 0.775 rounded to 0.78; no tax.
    expect(tillView(book, sale)).toMatchObject({
      rows: [
        { buyerNo: 10, owingCents: 0, overLimitCents: null },
        { buyerNo: 11, lots: 0 },
        { buyerNo: 12 },
        { buyerNo: 13, exemptNo: 'X1', owingCents: 1628, overLimitCents: 1000, cleared: true, clearedBy: 'Ada' },
      ],
      owingCents: 1628,
    });
  });
});
