import { describe, expect, it } from 'vitest';
import { saleFacts } from '#db/sale/facts.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { openHall, rowsOf } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

/** A deposit: buyer 10 has bought nothing. */
const paid = {
  ...({ saleId: 1, direction: 'in', buyerNo: 10, method: 'check', amount: '50.00', reference: '1041' } as const),
  answered: ['more_than_owed'],
} as const;

describe('payment.void', () => {
  const { book, must, refuses } = openHall();
  must('payment.record', paid);
  must('payment.record', { ...paid, amount: '20.00' });

  it('takes a payment back by a further row, and no sum counts either of the two', () => {
    must('payment.void', { paymentId: 1, reason: 'check for another buyer' }, 'till');
    expect(rowsOf(book).payment).toMatchObject([
      { id: 1, amount_cents: 5000, voids_id: null },
      { id: 2, amount_cents: 2000, voids_id: null },
      { id: 3, amount_cents: 5000, voids_id: 1, buyer_id: 1, reason: 'check for another buyer' },
    ]);
    expect(saleFacts(book, 1).payments).toMatchObject([{ amountCents: 2000 }]);
    expect(checkReplay(book.sqlite)).toMatchObject({ ok: true });
  });

  it.each([
    [{ paymentId: 9 }, 'unknown', 'paymentId'],
    [{ paymentId: 1 }, 'already', 'paymentId'],
    [{ paymentId: 3 }, 'not_allowed', 'paymentId'],
    [{ reason: ' ' }, 'malformed', 'reason'],
  ] as const)('refuses %j', (over, code, field) => {
    refuses('payment.void', { paymentId: 2, reason: 'miscounted', ...over }, { code, field });
  });

  it('refuses a closed sale', () => {
    const closed = openHall();
    closed.must('payment.record', paid);
    closeSale(closed, 1);
    closed.refuses('payment.void', { paymentId: 1, reason: 'late' }, { code: 'wrong_stage', field: 'paymentId' });
  });
});
