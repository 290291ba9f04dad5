/**
 * Set-offs and debts that are given up, in cents worked out by hand. That a person's purchases are set off against their
 * proceeds, and that a bad debt is an expense: common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import { journalProblems } from '#db/account/check.ts';
import { accountBalance } from '#db/account/queries.ts';
import { type SaleRow, saleById } from '#db/book/find.ts';
import { logHead } from '#db/book/log.ts';
import { buyerFile, buyerPayment } from '#db/buyer/files.ts';
import { buyerView, tillView } from '#db/buyer/queries.ts';
import { paperGround } from '#db/lot/papers.ts';
import { sinceClosing } from '#db/payment/since-closing.ts';
import { closingFacts } from '#db/report/closing.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { payoutSellerView } from '#db/settlement/payout.ts';
import { payoutView } from '#db/settlement/payout-view.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { buyerAccounts } from '#lib/buyer/buyer.ts';
import { receiptList } from '#lib/buyer/lists.ts';
import { receiptPaper } from '#lib/invoice/paper.ts';
import { formatMoney, negate, ZERO } from '#lib/money/money.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import { closingReport } from '#lib/report/closing-report.ts';
import { revenueOf } from '#lib/report/revenue.ts';
import { type Hall, openHall } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

/**
 * Ada sells lot 1 as number 1 for 100.00: she gets 100.00 − 6.00 − 0.25 − 5.00 = 88.75. As buyer 12 she bought lot 2 of
 * seller 2 for 40.00, with 5 % premium and 6.5 % tax of 42.00, that is 44.73.
 */
function bothSides(): Hall {
  const hall = openHall();
  const { saleId, must } = hall;
  must('seller.register', { saleId, sellerNo: 2, partners: [{ personId: 3 }] });
  must('buyer.register', { saleId, buyerNo: 14, personId: 1, cleared: true });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
  must('lot.add', { saleId, sellerNo: 2, goods: 'raccoon', count: '4' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
  must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '10.00', buyerNo: 14 });
  must('settlement.issue', { saleId, sellerNo: 1 });
  return hall;
}

const SET_OFF = { saleId: 1, buyerNo: 14, sellerNo: 1, personId: 1, amount: '44.73' } as const;
const owing = ({ book }: Hall, buyerNo: number) =>
  formatMoney(buyerAccounts(saleFacts(book, 1)).find((one) => one.buyerNo === buyerNo)?.owingCents ?? ZERO);
const balance = ({ book }: Hall, account: string) => formatMoney(accountBalance(book, 1, account));

describe('payment.setoff', () => {
  it('pays the buyer and the seller with each other, and the check is for the rest', () => {
    const hall = bothSides();
    const check = { saleId: 1, sellerNo: 1, firstNumber: 500 };
    const asked = hall.refuses('check.write', check, { code: 'needs_answer', field: 'owes_as_buyer' }, 'payout');
    expect(asked).toBe('Seller number 1 still owes 44.73 as buyer 14. Set it off first, or pay in full all the same?');
    // Of all that can be paid she is left out until it is settled.
    hall.refuses('check.write', { ...check, sellerNo: null }, { code: 'not_allowed' }, 'payout');
    hall.must('payment.setoff', SET_OFF, 'payout');
    expect(owing(hall, 14)).toBe('0.00');
    hall.must('check.write', check, 'payout');
    // 88.75 − 44.73.
    expect(hall.book.sqlite.prepare("SELECT amount_cents FROM payment WHERE method = 'check'").pluck().all()).toEqual([
      4402,
    ]);
    expect([balance(hall, 'Assets:Set off'), balance(hall, 'Liabilities:Sellers:1')]).toEqual(['0.00', '0.00']);
    expect(journalProblems(hall.book, 1, saleFacts(hall.book, 1))).toEqual([]);
  });

  it('lets a treasurer pay in full all the same, once asked', () => {
    const hall = bothSides();
    hall.must('check.write', { saleId: 1, sellerNo: 1, firstNumber: 500, answered: ['owes_as_buyer'] }, 'payout');
    expect(owing(hall, 14)).toBe('44.73');
  });

  it('is voided as a whole from either side, and never at a till', () => {
    for (const half of ['paymentId', 'otherHalfId'] as const) {
      const hall = bothSides();
      const { [half]: paymentId } = hall.must('payment.setoff', SET_OFF, 'payout');
      hall.refuses('payment.void', { paymentId, reason: 'not hers' }, { code: 'not_allowed' }, 'till');
      hall.must('payment.void', { paymentId, reason: 'not hers' }, 'payout');
      expect(owing(hall, 14)).toBe('44.73');
      hall.refuses('payment.void', { paymentId, reason: 'again' }, { code: 'already' }, 'payout');
      expect(checkReplay(hall.book.sqlite)).toMatchObject({ ok: true });
    }
  });

  it.each([
    [{ amount: '44.74' }, 'too_large', 'amount'],
    [{ amount: '0' }, 'malformed', 'amount'],
    [{ personId: 2 }, 'not_allowed', 'personId'],
    [{ buyerNo: 10 }, 'not_allowed', 'personId'],
    [{ buyerNo: 99 }, 'unknown', 'buyerNo'],
    [{ sellerNo: 99 }, 'unknown', 'sellerNo'],
    [{ sellerNo: 2 }, 'not_allowed', 'personId'],
  ] as const)('refuses %j', (over, code, field) => {
    bothSides().refuses('payment.setoff', { ...SET_OFF, ...over }, { code, field }, 'payout');
  });

  it('is never more than what is still owed to the seller', () => {
    const hall = bothSides();
    hall.must(
      'payment.record',
      {
        saleId: 1,
        direction: 'out',
        sellerNo: 1,
        personId: 1,
        method: 'cash',
        amount: '60.00',
        answered: ['owes_as_buyer'],
      },
      'payout',
    );
    hall.refuses('payment.setoff', SET_OFF, { code: 'too_large', field: 'amount' }, 'payout');
    hall.must('payment.setoff', { ...SET_OFF, amount: '28.75' }, 'payout');
    expect(owing(hall, 14)).toBe('15.98');
  });
});

describe('payment.writeoff', () => {
  const WRITE_OFF = { saleId: 1, buyerNo: 10, amount: '111.83', reason: 'moved away' } as const;

  it('is an expense, no money, and leaves the drawer and the other money alone', () => {
    const hall = bothSides();
    hall.must('payment.writeoff', WRITE_OFF, 'office');
    expect(owing(hall, 10)).toBe('0.00');
    expect(balance(hall, 'Expenses:Debts written off')).toBe('111.83');
    expect(balance(hall, 'Assets:Other payments')).toBe('0.00');
    expect(formatMoney(revenueOf(saleFacts(hall.book, 1), ZERO).badDebtsCents)).toBe('-111.83');
    const lines = closingLines(closingFacts(hall.book, 1));
    const [buyers, money] = ['buyers', 'money'].map((name) => lines.find((line) => line.name === name));
    expect(buyers?.parts).toContainEqual({ label: 'Written off', amount: 11_183 });
    expect(money).toMatchObject({ left: 0, right: 0 });
    // Nor does the fur go with it.
    hall.must('sale.stage', { saleId: 1, stage: 'settling', reason: '' });
    const fetched = { saleId: 1, buyerNo: 10, lots: ['1'], pieces: '10', takenBy: 'Bea' };
    hall.refuses('handover.record', fetched, { code: 'not_allowed' }, 'till');
  });

  it('is a figure beside what was paid, on screens, papers and in the journal, and its reason stays inside', () => {
    const hall = bothSides();
    const { book, saleId, must } = hall;
    must('payment.record', { saleId, direction: 'in', buyerNo: 10, method: 'cash', amount: '100.00' });
    const { paymentId } = must('payment.writeoff', { ...WRITE_OFF, amount: '11.83' }, 'office');
    const sale = saleById(book, 1) as SaleRow;
    const figures = { paidCents: 10_000, setOffCents: 0, givenUpCents: 1_183, feeCents: 0, owingCents: 0 };
    expect(buyerView(book, sale, 10)).toMatchObject(figures);
    expect(tillView(book, sale).rows.find(({ buyerNo }) => buyerNo === 10)).toMatchObject(figures);
    const [file, paid] = [buyerFile(book, 1, 10), buyerPayment(book, paymentId)];
    if (!file || !paid) throw new Error('no such payment');
    const when = { paidOn: '2026-02-28', paidTime: '4:05 PM' };
    const note = JSON.stringify(receiptList(receiptPaper(file, { ...paid, ...when }), logHead(book)));
    expect(note).toContain('"label":"Written off","words":"11.83 USD"');
    expect(note).not.toMatch(/Receiv|Paid in full|Taken|moved away/);
    const memos = book.sqlite.prepare('SELECT memo FROM journal_entry').pluck().all();
    expect(memos).toContain('Debt of buyer 10, written off moved away');
    const closing = closingFacts(book, 1);
    const report = JSON.stringify(
      closingReport({
        ...{ context: paperGround(book, sale, '2026-02-28'), closing, lines: closingLines(closing) },
        ...{ unfinished: [], sellerNames: new Map(), buyerNames: new Map(), closedBy: '' },
      }).tables,
    );
    expect(report).toMatch(/"Paid".*"Written off"/);
  });

  it('of a seller stands as written off on Settlements and on the partner’s line, and names a partner where there are several', () => {
    const { book, saleId, must, refuses } = openHall();
    must('seller.register', { saleId, sellerNo: 5, partners: [{ personId: 1 }, { personId: 3 }] });
    for (const sellerNo of [1, 5])
      must('charge.add', { saleId, sellerNo, kind: 'adjustment', amount: '5.00', how: 'deducted', note: 'tags' });
    for (const sellerNo of [1, 5]) must('settlement.issue', { saleId, sellerNo });
    const debt = { saleId, sellerNo: 1, amount: '1.00', reason: 'small' } as const;
    refuses('payment.writeoff', { ...debt, sellerNo: 5 }, { code: 'missing', field: 'personId' }, 'payout');
    const sale = saleById(book, 1) as SaleRow;
    const [before] = payoutView(book, sale).rows;
    must('payment.writeoff', { ...debt, amount: formatMoney(negate(before?.owingCents ?? ZERO)) }, 'payout');
    expect(payoutView(book, sale).rows[0]).toMatchObject({ state: 'paid', writtenOff: true });
    const [partner] = payoutSellerView(book, sale, { sellerNo: 1, drawnOn: '2026-02-28' })?.partners ?? [];
    expect(partner?.words).toMatch(/^bill of [\d.]+, written off [\d.]+$/);
  });

  it('is voided and paid after all, also after the closing, and only then does the fur go', () => {
    const hall = bothSides();
    const { must, refuses, saleId } = hall;
    const { paymentId } = must('payment.writeoff', WRITE_OFF, 'office');
    closeSale(hall, saleId);
    const fetched = { saleId, buyerNo: 10, lots: ['1'], pieces: '10', takenBy: 'Bea' };
    const why = refuses('handover.record', fetched, { code: 'not_allowed', field: 'lots' }, 'till');
    expect(why).toContain('Void the write-off of 111.83');
    must('payment.void', { paymentId, reason: 'came with the money' }, 'payout');
    must('payment.record', { saleId, direction: 'in', buyerNo: 10, method: 'cash', amount: '111.83' }, 'till');
    must('handover.record', fetched, 'till');
    expect(sinceClosing(hall.book, 1).map(({ memo, movedCents }) => [memo, movedCents])).toEqual([
      ['Taken back: Debt of buyer 10, written off moved away', 0],
      ['Paid in by buyer 10, cash', 11_183],
      ['Lot 1 handed over to buyer 10, taken by Bea', 0],
    ]);
    expect(balance(hall, 'Expenses:Debts written off')).toBe('0.00');
    expect(journalProblems(hall.book, 1, saleFacts(hall.book, 1))).toEqual([]);
  });

  it.each([
    [{ amount: '111.84' }, 'too_large', 'amount'],
    [{ reason: '' }, 'malformed', 'reason'],
    [{ buyerNo: 11 }, 'already', 'amount'],
    [{ buyerNo: null }, 'missing', 'buyerNo'],
    [{ buyerNo: null, sellerNo: 1 }, 'already', 'amount'],
  ] as const)('refuses %j', (over, code, field) => {
    bothSides().refuses('payment.writeoff', { ...WRITE_OFF, ...over }, { code, field }, 'office');
  });
});
