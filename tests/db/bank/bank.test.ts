/**
 * Deposits, the statement of the bank, and what happens after the closing, in cents worked out by hand. That checks on
 * their way and deposits in transit explain the difference between the book and the statement: every textbook of
 * bookkeeping (from memory). The fee for a returned check: common practice, no source; State law sets what may be charged.
 */

import { describe, expect, it } from 'vitest';
import { journalProblems } from '#db/account/check.ts';
import { accountBalance } from '#db/account/queries.ts';
import { bankEntries, checksWaiting, depositsOf } from '#db/bank/queries.ts';
import { type SaleRow, saleById } from '#db/book/find.ts';
import { logHead } from '#db/book/log.ts';
import { buyerFile, buyerPayment } from '#db/buyer/files.ts';
import { buyerView } from '#db/buyer/queries.ts';
import { checksOfSale } from '#db/payment/queries.ts';
import { sellersOwedSince, sinceClosing } from '#db/payment/since-closing.ts';
import { closingsOf } from '#db/report/closing.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { reconcile } from '#lib/bank/reconcile.ts';
import { buyerAccounts } from '#lib/buyer/buyer.ts';
import { receiptList } from '#lib/buyer/lists.ts';
import { receiptPaper } from '#lib/invoice/paper.ts';
import { formatMoney, ZERO } from '#lib/money/money.ts';
import { revenueOf } from '#lib/report/revenue.ts';
import type { Hall } from '#tests/support/hall.ts';
import { closeSale, OF_ELEVEN, OF_TEN, paidHall } from '#tests/support/sales.ts';

const DAY = '2026-02-28';
const balance = ({ book }: Hall, account: string) => formatMoney(accountBalance(book, 1, account));
const problems = ({ book }: Hall) => journalProblems(book, 1, saleFacts(book, 1));
const owing = ({ book }: Hall, buyerNo: number) =>
  formatMoney(buyerAccounts(saleFacts(book, 1)).find((one) => one.buyerNo === buyerNo)?.owingCents ?? ZERO);
const statement = ({ book }: Hall) => {
  const { bookCents, clearedCents, checksOut, inTransit, statementCents } = reconcile(bankEntries(book), DAY);
  const memos = (all: readonly { readonly memo: string }[]) => all.map(({ memo }) => memo);
  const sums = [bookCents, clearedCents, statementCents].map(formatMoney);
  return { sums, out: memos(checksOut), transit: memos(inTransit) };
};
const entryOf = ({ book }: Hall, memo: string) =>
  bankEntries(book).find((one) => one.memo.includes(memo))?.entryId ?? 0;
const sound = (hall: Hall) => {
  expect(problems(hall)).toEqual([]);
  expect(checkReplay(hall.book.sqlite)).toMatchObject({ ok: true, difference: null });
};

/** Two deposits: 111.83 and 30.00 of cash, and 223.65. Check 501 is on the statement, 502 is not. */
function bankedHall(): Hall {
  const hall = paidHall();
  hall.must('bank.deposit', { saleId: 1, paymentIds: [OF_TEN], cash: '30.00' }, 'payout');
  hall.must('bank.deposit', { saleId: 1, paymentIds: [OF_ELEVEN] }, 'payout');
  const entryIds = ['check 501', 'Deposit 1'].map((memo) => entryOf(hall, memo));
  hall.must('bank.clear', { entryIds, day: DAY }, 'payout');
  return hall;
}

function closedHall(): Hall {
  const hall = bankedHall();
  closeSale(hall, 1);
  return hall;
}

describe('bank.deposit', () => {
  it('brings checks and cash to the bank, each once', () => {
    const hall = paidHall();
    expect(checksWaiting(hall.book, 1).map(({ paymentId, who, name }) => [paymentId, who, name])).toEqual([
      [OF_TEN, 'buyer 10', 'Bea Cole'],
      [OF_ELEVEN, 'buyer 11', 'Cal Dunn'],
    ]);
    hall.must('bank.deposit', { saleId: 1, paymentIds: [OF_TEN], cash: '30.00' }, 'payout');
    expect(checksWaiting(hall.book, 1).map(({ paymentId }) => paymentId)).toEqual([OF_ELEVEN]);
    expect(depositsOf(hall.book, 1).map(({ totalCents }) => formatMoney(totalCents))).toEqual(['141.83']);
    // 141.83 − 88.75 − 182.75.
    expect(balance(hall, 'Assets:Bank')).toBe('-129.67');
    expect(balance(hall, 'Assets:Checks')).toBe('223.65');
    expect(balance(hall, 'Assets:Cash:Outside the drawer')).toBe('0.00');
    sound(hall);
  });

  it('refuses what does not wait, what was never there, and a day that cannot be', () => {
    const hall = paidHall();
    const refuses = (over: object, code: 'missing', field: string) =>
      hall.refuses('bank.deposit', { saleId: 1, paymentIds: [OF_TEN], ...over }, { code, field }, 'payout');
    const said = refuses as (over: object, code: string, field: string) => string;
    expect(said({ paymentIds: [] }, 'missing', 'paymentIds')).toContain('Tick the checks');
    expect(said({ paymentIds: [OF_TEN, OF_TEN] }, 'malformed', 'paymentIds')).toContain('listed twice');
    expect(said({ paymentIds: [99] }, 'unknown', 'paymentIds')).toContain('Payment 99');
    expect(said({ paymentIds: [1] }, 'unknown', 'paymentIds')).toContain('no check');
    expect(said({ cash: '30.01' }, 'too_large', 'cash')).toContain('30.00 of cash lies outside the drawer');
    expect(said({ day: '2026-03-01' }, 'conflict', 'day')).toContain('still to come');
    expect(said({ day: '2026-02-27' }, 'conflict', 'day')).toContain('The check of Bea Cole was taken in on');
    hall.must('bank.deposit', { saleId: 1, paymentIds: [OF_TEN] });
    expect(said({}, 'already', 'paymentIds')).toContain('in deposit 1 already');
    hall.refuses('bank.deposit', { saleId: 1, paymentIds: [OF_ELEVEN] }, { code: 'not_allowed' }, 'till');
    expect(hall.refuses('payment.void', { paymentId: OF_TEN, reason: 'a slip' }, { code: 'conflict' })).toContain(
      'record it as returned',
    );
  });
});

describe('deposit.void', () => {
  it('lets the checks and the cash wait again', () => {
    const hall = bankedHall();
    const none = { depositId: 2, reason: 'another bag' };
    hall.must('deposit.void', none, 'payout');
    expect(checksWaiting(hall.book, 1).map(({ paymentId }) => paymentId)).toEqual([OF_ELEVEN]);
    expect(depositsOf(hall.book, 1).map(({ voided }) => voided)).toEqual([null, 'another bag']);
    hall.refuses('deposit.void', none, { code: 'already', field: 'depositId' });
    hall.refuses('deposit.void', { ...none, depositId: 3 }, { code: 'not_allowed', field: 'depositId' });
    hall.refuses('deposit.void', { ...none, depositId: 9 }, { code: 'unknown', field: 'depositId' });
    hall.refuses('deposit.void', { depositId: 1, reason: ' ' }, { code: 'malformed', field: 'reason' });
    // The first one is on the statement, and then a check of it came back.
    expect(hall.refuses('deposit.void', { ...none, depositId: 1 }, { code: 'conflict' })).toContain('statement');
    hall.must('bank.unclear', { entryIds: [entryOf(hall, 'Deposit 1')] });
    hall.must('check.bounce', { paymentId: OF_TEN, reason: 'no funds' });
    expect(hall.refuses('deposit.void', { ...none, depositId: 1 }, { code: 'conflict' })).toContain('came back');
    sound(hall);
  });
});

describe('the statement', () => {
  it('is the book with the checks on their way added and the deposits in transit taken off', () => {
    const hall = bankedHall();
    // Book: 141.83 + 223.65 − 88.75 − 182.75 = 93.98; cleared: 141.83 − 88.75 = 53.08.
    expect(statement(hall)).toEqual({
      sums: ['93.98', '53.08', '53.08'],
      out: ['Paid out to seller 2, check 502'],
      transit: ['Deposit 2: 1 check'],
    });
  });

  it('marks nothing twice, nothing that was taken back, and nothing before its day', () => {
    const hall = bankedHall();
    const open = entryOf(hall, 'check 502');
    const clear = (over: object) => ({ entryIds: [open], day: DAY, ...over });
    hall.refuses('bank.clear', clear({ entryIds: [] }), { code: 'malformed', field: 'entryIds' });
    hall.refuses('bank.clear', clear({ entryIds: [open, open] }), { code: 'malformed', field: 'entryIds' });
    hall.refuses('bank.clear', clear({ entryIds: [999] }), { code: 'unknown', field: 'entryIds' });
    hall.refuses('bank.clear', clear({ day: '2026-02-27' }), { code: 'conflict', field: 'day' });
    hall.refuses('bank.clear', clear({ day: '2026-03-01' }), { code: 'conflict', field: 'day' });
    hall.refuses('bank.clear', clear({ day: '' }), { code: 'malformed', field: 'day' });
    hall.refuses('bank.clear', clear({ entryIds: [entryOf(hall, '501')] }), { code: 'already', field: 'entryIds' });
    hall.refuses('bank.unclear', { entryIds: [open] }, { code: 'unknown', field: 'entryIds' });
    hall.must('check.stop', { checkId: 2, kind: 'stopped', reason: 'wrong name' });
    hall.refuses('bank.clear', clear({}), { code: 'conflict', field: 'entryIds' });
    expect(statement(hall)).toMatchObject({ sums: ['276.73', '53.08', '53.08'], out: [] });
    sound(hall);
  });
});

describe('check.stop', () => {
  it('voids a lost check after the closing, and that amount alone is written once more', () => {
    const hall = closedHall();
    const { book, must, refuses } = hall;
    const before = closingsOf(book, 1);
    const write = { saleId: 1, sellerNo: 2, firstNumber: 600 };
    refuses('check.write', write, { code: 'wrong_stage' }, 'payout');
    must('check.stop', { checkId: 2, kind: 'lost', reason: 'in the post' }, 'payout');
    const sale = saleById(book, 1);
    if (!sale) throw new Error('no sale');
    expect(sellersOwedSince(book, sale)).toEqual([{ sellerNo: 2, amountCents: 18_275 }]);
    refuses('check.write', { ...write, sellerNo: null, seen: 1 }, { code: 'wrong_stage' }, 'payout');
    refuses('check.write', { ...write, firstNumber: 502 }, { code: 'taken' }, 'payout');
    must('check.write', write, 'payout');
    refuses('check.write', { ...write, firstNumber: 601 }, { code: 'wrong_stage' }, 'payout');
    expect(sellersOwedSince(book, sale)).toEqual([]);
    expect(checksOfSale(book, 1).map((one) => [one.number, one.amountCents, one.voidReason])).toEqual([
      [501, 8875, null],
      [502, 18_275, 'lost: in the post'],
      [600, 18_275, null],
    ]);
    expect(sinceClosing(book, 1).map(({ memo, amountCents }) => [memo, amountCents])).toEqual([
      ['Taken back: Paid out to seller 2, check 502', 18_275],
      ['Paid out to seller 2, check 600', 18_275],
    ]);
    expect(closingsOf(book, 1)).toEqual(before);
    sound(hall);
  });

  it('lists who owes because their own check came back, and takes it', () => {
    const hall = paidHall();
    const { book, must } = hall;
    must('charge.add', {
      saleId: 1,
      sellerNo: 1,
      kind: 'adjustment',
      how: 'deducted',
      amount: '100.00',
      note: 'freight',
    });
    must('settlement.correct', { saleId: 1, sellerNo: 1, reason: 'freight' });
    const owes = { saleId: 1, sellerNo: 1, personId: 1, direction: 'in' } as const;
    const { paymentId } = must('payment.record', { ...owes, method: 'check', amount: '100.00', reference: 'Check 31' });
    expect(checksWaiting(book, 1).at(-1)?.by).toBe('check 31');
    closeSale(hall, 1);
    const sale = saleById(book, 1);
    if (!sale) throw new Error('no sale');
    must('check.bounce', { paymentId, reason: 'no funds' }, 'payout');
    expect(sellersOwedSince(book, sale)).toEqual([{ sellerNo: 1, amountCents: -10_000 }]);
    must('payment.record', { ...owes, method: 'cash', amount: '100.00' }, 'payout');
    expect(sellersOwedSince(book, sale)).toEqual([]);
    // A check that we wrote, stopped and not written anew, is listed beside one that was.
    must('check.stop', { checkId: 1, kind: 'stopped', reason: 'wrong name' }, 'payout');
    must('check.reissue', { checkId: 2, number: 700, reason: 'in the post' }, 'payout');
    expect(sellersOwedSince(book, sale)).toEqual([{ sellerNo: 1, amountCents: 8875 }]);
    sound(hall);
  });

  it('writes a lost check anew in one act, also after the closing', () => {
    const hall = closedHall();
    hall.must('check.reissue', { checkId: 2, number: 700, reason: 'in the post' }, 'payout');
    expect(balance(hall, 'Liabilities:Sellers:2')).toBe('0.00');
    sound(hall);
  });

  it('refuses a check that the bank has paid, one that is void, and one that is not there', () => {
    const hall = closedHall();
    const stop = { checkId: 1, kind: 'lost', reason: 'in the post' } as const;
    expect(hall.refuses('check.stop', stop, { code: 'conflict', field: 'checkId' })).toContain('The bank has paid');
    hall.refuses('check.reissue', { checkId: 1, number: 700, reason: 'lost' }, { code: 'conflict', field: 'checkId' });
    hall.refuses('check.stop', { ...stop, checkId: 9 }, { code: 'unknown', field: 'checkId' });
    hall.refuses('check.stop', { ...stop, checkId: 2, reason: '' }, { code: 'malformed', field: 'reason' });
    hall.must('check.stop', { ...stop, checkId: 2 });
    hall.refuses('check.stop', { ...stop, checkId: 2 }, { code: 'already', field: 'checkId' });
    hall.refuses('check.stop', stop, { code: 'not_allowed' }, 'till');
  });
});

/** The paper of one payment of buyer 11. */
function receiptOf({ book }: Hall, paymentId: number) {
  const [file, paid] = [buyerFile(book, 1, 11), buyerPayment(book, paymentId)];
  if (!file || !paid) throw new Error('no such payment');
  return receiptList(receiptPaper(file, { ...paid, paidOn: '2026-02-28', paidTime: '4:05 PM' }), logHead(book));
}

describe('check.bounce', () => {
  it('has the buyer owe again with a fee of 25.00 after the closing, until it is paid', () => {
    const hall = closedHall();
    const { must, refuses } = hall;
    must('check.bounce', { paymentId: OF_ELEVEN, fee: '25.00', reason: 'no funds' }, 'payout');
    const feeId = hall.book.sqlite.prepare("SELECT id FROM payment WHERE method = 'check_fee'").pluck().get() as number;
    expect(receiptOf(hall, feeId)).toMatchObject({
      result: { label: 'Fee charged', words: '25.00 USD' },
      opening: ['You owe $248.65'],
      signatures: [],
    });
    // 223.65 + 25.00.
    expect(owing(hall, 11)).toBe('248.65');
    // 93.98 − 223.65.
    expect(balance(hall, 'Assets:Bank')).toBe('-129.67');
    expect(balance(hall, 'Income:Returned-check fees')).toBe('-25.00');
    expect(formatMoney(revenueOf(saleFacts(hall.book, 1), ZERO).checkFeesCents)).toBe('25.00');
    expect(sinceClosing(hall.book, 1).map(({ memo }) => memo)).toEqual([
      'Came back: Paid in by buyer 11, check 88',
      'Charged to buyer 11, returned-check fee 88',
    ]);
    // The deposit was made, and stays as it was: the check is no check of ours that the bank has still to pay.
    expect(statement(hall)).toMatchObject({
      out: ['Paid out to seller 2, check 502'],
      transit: ['Deposit 2: 1 check'],
    });
    const pay = { saleId: 1, direction: 'in', buyerNo: 11, method: 'cash' } as const;
    expect(refuses('payment.record', { ...pay, amount: '248.66' }, { code: 'too_large', field: 'amount' })).toContain(
      '248.65 is owed since',
    );
    refuses('payment.record', { ...pay, buyerNo: 10, amount: '1.00' }, { code: 'wrong_stage', field: 'saleId' });
    refuses('payment.record', { ...pay, direction: 'out', amount: '1.00' }, { code: 'wrong_stage', field: 'saleId' });
    const paid = must('payment.record', { ...pay, amount: '200.00' }, 'till');
    const said = receiptOf(hall, paid.paymentId);
    expect(said.result?.label).toBe('Received');
    expect(said.opening[0]).toContain('$48.65, the returned-check fee of $25.00 counted in');
    expect(buyerView(hall.book, saleById(hall.book, 1) as SaleRow, 11)).toMatchObject({
      paidCents: 20_000,
      feeCents: 2_500,
    });
    must('payment.writeoff', { saleId: 1, buyerNo: 11, sellerNo: null, amount: '48.65', reason: 'moved away' });
    expect(owing(hall, 11)).toBe('0.00');
    sound(hall);
  });

  it('takes a check that was never banked off the checks at hand', () => {
    const hall = paidHall();
    hall.must('check.bounce', { paymentId: OF_TEN, fee: '', reason: 'not signed' }, 'payout');
    expect([balance(hall, 'Assets:Checks'), balance(hall, 'Assets:Bank')]).toEqual(['223.65', '-271.50']);
    expect(owing(hall, 10)).toBe('111.83');
    sound(hall);
  });

  it('refuses what is no check taken in, a second time, and dues', () => {
    const hall = paidHall();
    const bounce = (paymentId: number) => ({ paymentId, reason: 'no funds' });
    hall.refuses('check.bounce', bounce(1), { code: 'not_allowed', field: 'paymentId' });
    hall.refuses('check.bounce', bounce(4), { code: 'not_allowed', field: 'paymentId' });
    hall.refuses('check.bounce', bounce(99), { code: 'unknown', field: 'paymentId' });
    hall.refuses('check.bounce', bounce(OF_TEN), { code: 'not_allowed' }, 'till');
    hall.must('check.bounce', bounce(OF_TEN));
    hall.refuses('check.bounce', bounce(OF_TEN), { code: 'already', field: 'paymentId' });
    const paidIn = { saleId: 1, direction: 'in', method: 'check', amount: '1.00' } as const;
    const { paymentId } = hall.must('payment.record', { ...paidIn, sellerNo: 1, answered: ['more_than_owed'] });
    hall.refuses('check.bounce', { ...bounce(paymentId), fee: '25.00' }, { code: 'not_allowed', field: 'fee' });
    hall.must('check.bounce', bounce(paymentId));
    hall.must('dues.take', { saleId: 1, personId: 4, sellerNo: null, how: 'check', amount: '30.00' });
    const dues = checksWaiting(hall.book, 1).find(({ who }) => who === 'dues');
    expect(hall.refuses('check.bounce', bounce(dues?.paymentId ?? 0), { code: 'not_allowed' })).toContain('dues');
  });

  it('does not ask the drawer for a check that the bank had', () => {
    const hall = bankedHall();
    hall.must('drawer.record', { saleId: 1, kind: 'opened', pieces: [] }, 'till');
    hall.must('check.bounce', { paymentId: OF_TEN, reason: 'no funds' });
    hall.must('drawer.record', { saleId: 1, kind: 'closed', pieces: [], checks: '' }, 'till');
    sound(hall);
  });
});
