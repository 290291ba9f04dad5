import { describe, expect, it } from 'vitest';
import { openHall, rowsOf } from '#tests/support/hall.ts';

describe('bid.retract', () => {
  const { book, saleId, must, refusesUntyped } = openHall();
  for (const count of ['3', '4']) must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count });
  const leave = (lotNo: string, buyerNo: number, price: string) =>
    must('bid.leave', { saleId, lotNo, buyerNo, kind: 'left', price }).bidId;
  const early = leave('1', 10, '5.00');
  const late = leave('1', 10, '6.00');
  leave('1', 11, '5.50');
  const sold = leave('2', 10, '5.00');
  must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '5.00', buyerNo: 10 });

  it('takes a bid back by a further row, and counts none of its bidder before it', () => {
    expect(must('bid.retract', { bidId: late })).toMatchObject({ bidsLeft: 1 });
    expect(rowsOf(book).bid?.at(-1)).toMatchObject({ retracts_id: late, price_cents: 600, kind: 'left' });
  });

  it('counts a bid that is made after it', () => {
    const again = leave('1', 10, '7.00');
    expect(must('bid.retract', { bidId: early })).toMatchObject({ bidsLeft: 2 });
    expect(must('bid.retract', { bidId: again })).toMatchObject({ bidsLeft: 1 });
  });

  it.each([
    ['a bid that was taken back', { bidId: late }, 'already'],
    ['a bid on a lot that is sold', { bidId: sold }, 'already'],
    ['the taking back of a bid', { bidId: 5 }, 'unknown'],
    ['a bid that is not there', { bidId: 99 }, 'unknown'],
    ['no number', { bidId: '1' }, 'malformed'],
  ] as const)('refuses %s', (_, input, code) => {
    refusesUntyped('bid.retract', input, { code, field: 'bidId' });
  });
});
