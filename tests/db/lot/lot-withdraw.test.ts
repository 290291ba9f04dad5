import { describe, expect, it } from 'vitest';
import { openHall, rowsOf } from '#tests/support/hall.ts';

describe('lot.withdraw', () => {
  it('takes a lot out before the sale begins, with its reason, and a lot is withdrawn once', () => {
    const hall = openHall();
    const { saleId, must, refuses } = hall;
    must('sale.stage', { saleId, stage: 'intake', reason: 'late goods' });
    const { lotId } = must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
    refuses('lot.withdraw', { lotId, reason: ' ' }, { code: 'malformed', field: 'reason' });
    must('lot.withdraw', { lotId, reason: 'Taken home by the seller' });
    expect(rowsOf(hall.book).outcome).toMatchObject([{ kind: 'withdrawn', reason: 'Taken home by the seller' }]);
    refuses('lot.withdraw', { lotId, reason: 'again' }, { code: 'already' });
    refuses('tags.set', { lotId, tags: [] }, { code: 'already' });
  });

  it('takes out a lot on hold: nobody has to tag what goes home', () => {
    const { saleId, must } = openHall();
    const { lotId } = must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '3' });
    expect(must('lot.withdraw', { lotId, reason: 'No tags' }).lotId).toBe(lotId);
  });

  it('takes out a lot that was opened again after it was called', () => {
    const { saleId, must } = openHall();
    const { lotId } = must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
    const replacesId = must('outcome.record', { saleId, lotNo: '1', kind: 'passed' }).outcomeId;
    must('outcome.reopen', { lotId, replacesId, reason: 'A bid came in' });
    expect(must('lot.withdraw', { lotId, reason: 'Seller changed his mind' }).lotId).toBe(lotId);
  });

  // UCC § 2-328(3).
  it('refuses a lot without reserve once a bid stands on it', () => {
    const { saleId, must, refuses } = openHall();
    const { lotId } = must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3', withoutReserve: true });
    must('bid.leave', { saleId, lotNo: '1', buyerNo: 10, kind: 'left', price: '5.00' });
    refuses('lot.withdraw', { lotId, reason: 'Too low' }, { code: 'not_allowed', field: 'lotId' });
  });
});
