import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { limitsInWords } from '#db/buyer/accounts.ts';
import { tillView } from '#db/buyer/queries.ts';
import { openHall } from '#tests/support/hall.ts';

describe('a limit', () => {
  it('says how much is left of it and by how much it is passed, as the till reckons it', () => {
    const { book, saleId, must } = openHall();
    const said = () => limitsInWords(book, saleId).get(10);
    expect(said()).toBeUndefined();
    must('buyer.amend', { saleId, buyerNo: 10, taxExempt: false, limit: '150.00' });
    expect(said()).toBe('150.00 left of the limit');
    for (const lotNo of ['1', '2']) {
      must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '12' });
      must('outcome.record', { saleId, lotNo, kind: 'sold', price: '7.25', buyerNo: 10 });
    }
    // Twice 87.00 and 4.35, with 6.5 % of 182.70 (11.8755, so 11.88): 194.58.
    expect(said()).toBe('beyond the limit by 44.58');
    const sale = saleById(book, saleId);
    const row = sale && tillView(book, sale).rows.find(({ buyerNo }) => buyerNo === 10);
    expect(row).toMatchObject({ owingCents: 19_458, overLimitCents: 15_000 });
    must('payment.record', { saleId, direction: 'in', buyerNo: 10, method: 'cash', amount: '100.00' });
    expect(said()).toBe('55.42 left of the limit');
    must('payment.void', { paymentId: 1, reason: 'slip' });
    must('outcome.correct', { lotId: 2, replacesId: 2, kind: 'passed', reason: 'misheard' });
    must('buyer.amend', { saleId, buyerNo: 10, taxExempt: true, exemptNo: 'TX', limit: '150.00' });
    expect(said()).toBe('58.65 left of the limit');
  });
});
