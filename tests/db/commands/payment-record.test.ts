import { describe, expect, it } from 'vitest';
import { openHall, rowsOf } from '#tests/support/hall.ts';

const payment = { saleId: 1, direction: 'in', buyerNo: 10, method: 'cash', amount: '50.00' };

describe('payment.record', () => {
  const { book, must, refuses } = openHall();

  it('takes money from a buyer and pays a partner', () => {
    must('payment.record', { ...payment, reference: '1041' });
    const out = { direction: 'out', buyerNo: null, sellerNo: 1, personId: 1, method: 'check', amount: '12.5' };
    must('payment.record', { ...payment, ...out });
    expect(rowsOf(book).payment).toMatchObject([
      {
        direction: 'in',
        buyer_id: 1,
        seller_id: null,
        amount_cents: 5000,
        reference: '1041',
        paid_at: '2026-02-28T10:00:00Z',
      },
      { direction: 'out', buyer_id: null, seller_id: 1, person_id: 1, amount_cents: 1250 },
    ]);
  });

  it.each([
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ buyerNo: 9 }, 'unknown', 'buyerNo'],
    [{ buyerNo: null, sellerNo: 9 }, 'unknown', 'sellerNo'],
    [{ personId: 99 }, 'unknown', 'personId'],
    [{ sellerNo: 1 }, 'missing', 'buyerNo'],
    [{ amount: '0' }, 'malformed', 'amount'],
    [{ amount: '-5' }, 'malformed', 'amount'],
    [{ amount: '12,5' }, 'malformed', 'amount'],
    [{ method: 'fur' }, 'malformed', 'method'],
    [{ direction: 'up' }, 'malformed', 'direction'],
  ] as const)('refuses %j', (over, code, field) => {
    refuses('payment.record', { ...payment, ...over }, { code, field });
  });

  it('refuses a closed sale', () => {
    openHall({ stage: 'closed' }).refuses('payment.record', payment, { code: 'wrong_stage', field: 'saleId' });
  });
});
