import { describe, expect, it } from 'vitest';
import { journalProblems } from '#db/account/check.ts';
import { journalEntries } from '#db/account/queries.ts';
import { sinceClosing } from '#db/payment/since-closing.ts';
import { closingsOf } from '#db/report/closing.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { openHall, rowsOf } from '#tests/support/hall.ts';
import { balanceProblems } from '#tests/support/money-laws.ts';
import { closeSale, OF_ELEVEN, paidHall } from '#tests/support/sales.ts';

/** A deposit: buyer 10 has bought nothing. */
const paid = {
  ...({ saleId: 1, direction: 'in', buyerNo: 10, method: 'check', amount: '50.00', reference: '1041' } as const),
  answered: ['more_than_owed'],
} as const;

describe('payment.void at the till', () => {
  /** Seller 1 sold ten pieces at 10.00 and has 88.75 to get. */
  function paidOut() {
    const hall = openHall();
    const { saleId, must } = hall;
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
    must('settlement.issue', { saleId, sellerNo: 1 });
    return hall;
  }
  const cash = { saleId: 1, direction: 'out', sellerNo: 1, method: 'cash', amount: '20.00' } as const;

  it('leaves checks and cash of sellers to the treasurer, who voids them', () => {
    const { book, must, refuses } = paidOut();
    must('payment.record', cash, 'payout');
    must('check.write', { saleId: 1, sellerNo: 1, firstNumber: 1041 }, 'payout');
    const not = { code: 'not_allowed', field: 'paymentId' } as const;
    const voidOf = (paymentId: number) => ({ paymentId, reason: 'miscounted' }) as const;
    expect(refuses('payment.void', voidOf(1), not, 'till')).toBe(
      'Money paid to seller number 1 is voided at Payout: ask the treasurer.',
    );
    expect(refuses('payment.void', voidOf(2), not, 'till')).toBe(
      'A check to seller number 1 is voided at Payout: ask the treasurer.',
    );
    must('payment.void', voidOf(1), 'payout');
    must('payment.void', voidOf(2), 'office');
    // Nor does a till take back what took them back.
    refuses('payment.void', voidOf(3), not, 'till');
    expect(checkReplay(book.sqlite)).toMatchObject({ ok: true, difference: null });
  });

  it('voids what came in, from a seller too, and what a buyer got back', () => {
    const { must } = paidOut();
    must('payment.record', { ...cash, direction: 'in', answered: ['more_than_owed'] }, 'till');
    must('payment.record', { ...paid, amount: '120.00' }, 'till');
    must('payment.record', { ...paid, direction: 'out', amount: '8.17' }, 'till');
    for (const paymentId of [1, 3, 2]) must('payment.void', { paymentId, reason: 'slip' }, 'till');
  });
});

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

  it('refuses in a closed sale what its report counts, and says what to do', () => {
    const closed = openHall();
    closed.must('payment.record', paid);
    closeSale(closed, 1);
    const late = { paymentId: 1, reason: 'late' };
    const said = closed.refuses('payment.void', late, { code: 'wrong_stage', field: 'paymentId' });
    expect(said).toMatch(/came back or was lost is recorded at Payout.*reopen the sale first\.$/);
  });
});

describe('a payment that was made after the closing', () => {
  const ofEleven = { saleId: 1, buyerNo: 11, method: 'cash' } as const;

  it('is voided by an entry of that day, and nothing before the closing changes', () => {
    const hall = paidHall();
    const { book, must, refuses } = hall;
    closeSale(hall, 1);
    const sealed = [closingsOf(book, 1), journalEntries(book, 1)];
    must('check.bounce', { paymentId: OF_ELEVEN, fee: '25.00', reason: 'no funds' }, 'payout');
    const wrong = must('payment.record', { ...ofEleven, direction: 'in', amount: '248.65' }, 'till');
    must('payment.void', { paymentId: wrong.paymentId, reason: 'it was a check' }, 'till');
    refuses('payment.void', { ...wrong, reason: 'again' }, { code: 'already' }, 'till');
    must('payment.record', { ...ofEleven, direction: 'in', amount: '248.65' }, 'till');
    expect([closingsOf(book, 1), journalEntries(book, 1).slice(0, sealed[1]?.length)]).toEqual(sealed);
    expect(sinceClosing(book, 1).map(({ memo }) => memo)).toContain('Taken back: Paid in by buyer 11, cash');
    expect(journalProblems(book, 1, saleFacts(book, 1))).toEqual([]);
    expect(balanceProblems(book, 1)).toEqual([]);
    expect(checkReplay(book.sqlite)).toMatchObject({ ok: true, difference: null });
    // Before the newest closing is before it, also what came after an older one.
    must('sale.stage', { saleId: 1, stage: 'settling', reason: 'one more look' });
    closeSale(hall, 1);
    refuses('payment.void', { paymentId: wrong.paymentId + 2, reason: 'late' }, { code: 'wrong_stage' }, 'till');
  });

  it('leaves what was too much to be handed back, and no cent more', () => {
    const hall = paidHall();
    const { book, must, refuses } = hall;
    closeSale(hall, 1);
    must('check.bounce', { paymentId: OF_ELEVEN, fee: '25.00', reason: 'no funds' }, 'payout');
    must('payment.record', { ...ofEleven, direction: 'in', amount: '248.65' }, 'till');
    const fee = rowsOf(book).payment?.findIndex((row) => (row as { method: string }).method === 'check_fee') ?? -1;
    refuses('payment.void', { paymentId: fee + 1, reason: 'our bank' }, { code: 'not_allowed' }, 'till');
    must('payment.void', { paymentId: fee + 1, reason: 'our bank' }, 'payout');
    const back = { ...ofEleven, direction: 'out' } as const;
    const most = { code: 'too_large', field: 'amount' } as const;
    expect(refuses('payment.record', { ...back, amount: '25.01' }, most, 'till')).toContain('hand back no more');
    must('payment.record', { ...back, amount: '25.00' }, 'till');
    refuses('payment.record', { ...back, amount: '0.01' }, { code: 'wrong_stage' }, 'till');
    expect(journalProblems(book, 1, saleFacts(book, 1))).toEqual([]);
    expect(checkReplay(book.sqlite)).toMatchObject({ ok: true, difference: null });
  });
});
