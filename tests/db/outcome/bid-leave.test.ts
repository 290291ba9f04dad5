import { describe, expect, it } from 'vitest';
import { openHall, rowsOf } from '#tests/support/hall.ts';

describe('bid.leave', () => {
  const { book, saleId, must, refusesUntyped } = openHall();
  for (const count of ['3', '4']) must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count });
  must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '7.25', buyerNo: 10 });
  const bid = { saleId, lotNo: '1', buyerNo: 11, kind: 'left', price: '6.5' } as const;

  it('takes a bid down with its time, and gives nobody the lot', () => {
    must('bid.leave', bid);
    const row = { buyer_id: 2, kind: 'left', price_cents: 650, received_at: '2026-02-28T10:00:00Z', retracts_id: null };
    expect(rowsOf(book).bid).toMatchObject([row]);
    expect(rowsOf(book).outcome).toHaveLength(1);
  });

  it('takes the under-bid of a lot that is sold', () => {
    must('bid.leave', { ...bid, lotNo: '2', kind: 'under' });
    expect(rowsOf(book).bid).toHaveLength(2);
  });

  it.each([
    [{ lotNo: '9' }, 'unknown', 'lotNo'],
    [{ saleId: 9 }, 'unknown', 'lotNo'],
    [{ buyerNo: 9 }, 'unknown', 'buyerNo'],
    [{ lotNo: '2' }, 'already', 'lotNo'],
    [{ price: '0.00' }, 'malformed', 'price'],
    [{ price: '12,5' }, 'malformed', 'price'],
    [{ kind: 'shouted' }, 'malformed', 'kind'],
  ] as const)('refuses %j', (over, code, field) => {
    refusesUntyped('bid.leave', { ...bid, ...over }, { code, field });
  });
});
