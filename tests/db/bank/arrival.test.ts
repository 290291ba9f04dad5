/**
 * Card money that arrives, checks that came back, and the paper of the reconciliation, in cents worked out by hand. That
 * a card processor pays less than was charged, by its fee: common practice, no source.
 */
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { journalProblems } from '#db/account/check.ts';
import { accountBalance } from '#db/account/queries.ts';
import { bankView, reconciliationFile, reconciliationOf } from '#db/bank/bank-view.ts';
import { arrivalsOf, bankEntries, depositsOf } from '#db/bank/queries.ts';
import { closingFacts } from '#db/report/closing.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { MONEY_ACCOUNTS } from '#lib/account/account.ts';
import { type BankEntry, decideClear, reconcile } from '#lib/bank/reconcile.ts';
import { addCents, cents, formatMoney, sumCents, ZERO } from '#lib/money/money.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import { revenueOf } from '#lib/report/revenue.ts';
import type { Hall } from '#tests/support/hall.ts';
import { balanceProblems } from '#tests/support/money-laws.ts';
import { closeSale, OF_ELEVEN, OF_TEN, paidHall } from '#tests/support/sales.ts';

const DAY = '2026-02-28';
const NOTHING = { day: DAY, statement: '', other: '' };
const balance = ({ book }: Hall, account: string) => formatMoney(accountBalance(book, 1, account));
const sound = ({ book }: Hall) => {
  expect(journalProblems(book, 1, saleFacts(book, 1))).toEqual([]);
  expect(checkReplay(book.sqlite)).toMatchObject({ ok: true, difference: null });
};

/** 40.00 of raffle tickets and 60.00 of food by card. */
function cardHall(): Hall {
  const hall = paidHall();
  const taking = { saleId: 1, method: 'card', note: '' } as const;
  hall.must('taking.record', { ...taking, kind: 'raffle', amount: '40.00' }, 'till');
  hall.must('taking.record', { ...taking, kind: 'food', amount: '60.00' }, 'till');
  return hall;
}

const ARRIVE = { saleId: 1, method: 'card', amount: '100.00', arrived: '97.10' } as const;

describe('bank.arrive', () => {
  it('asks about what is missing, books it as a fee, and stands on the statement at once', () => {
    const hall = cardHall();
    const asked = hall.refuses('bank.arrive', ARRIVE, { code: 'needs_answer', field: 'fee_kept' }, 'payout');
    expect(asked).toContain('2.90 of 100.00 did not arrive');
    hall.must('bank.arrive', { ...ARRIVE, answered: ['fee_kept'] }, 'payout');
    expect([balance(hall, 'Assets:Cards'), balance(hall, 'Expenses:Card fees')]).toEqual(['0.00', '2.90']);
    // 97.10 − 88.75 − 182.75.
    expect(balance(hall, 'Assets:Bank')).toBe('-174.40');
    const { cleared, lying } = bankView(hall.book, { id: 1 }, NOTHING, DAY);
    expect(cleared.map(({ words, amount }) => [words.slice(0, 18), amount])).toEqual([
      ['Card money arrived', '97.10 in'],
    ]);
    expect(lying).toEqual([]);
    sound(hall);
    // The fee is off what is kept, and off the money that is there: the sale closes at zero.
    expect(formatMoney(revenueOf(saleFacts(hall.book, 1), ZERO).cardFeesCents)).toBe('-2.90');
    closeSale(hall, 1);
    sound(hall);
    // Where money lies comes to what the money line says, and to what is kept, with the tax, less nothing: the fee is in neither.
    const money = closingLines(closingFacts(hall.book, 1)).find(({ name }) => name === 'money');
    const lies = MONEY_ACCOUNTS.map((account) => accountBalance(hall.book, 1, account));
    expect(money).toMatchObject({ left: sumCents(lies), right: sumCents(lies), difference: 0 });
    const { revenueCents, taxCents } = revenueOf(saleFacts(hall.book, 1), ZERO);
    expect(addCents(revenueCents, taxCents)).toBe(sumCents(lies));
    expect(balanceProblems(hall.book, 1)).toEqual([]);
  });

  it('takes a part without a question where all of it arrived, and is taken back', () => {
    const hall = cardHall();
    hall.must('bank.arrive', { ...ARRIVE, amount: '40.00', arrived: '40.00' }, 'payout');
    expect(bankView(hall.book, { id: 1 }, NOTHING, DAY).lying).toEqual([{ method: 'card', amount: '60.00' }]);
    hall.must('arrival.void', { arrivalId: 1, reason: 'another day' }, 'payout');
    expect(arrivalsOf(hall.book, 1).map(({ voided }) => voided)).toEqual(['another day']);
    expect(balance(hall, 'Assets:Cards')).toBe('100.00');
    expect(bankView(hall.book, { id: 1 }, NOTHING, DAY)).toMatchObject({ cleared: [], inTransit: [] });
    hall.refuses('arrival.void', { arrivalId: 1, reason: 'twice' }, { code: 'already', field: 'arrivalId' });
    hall.refuses('arrival.void', { arrivalId: 2, reason: 'a void' }, { code: 'not_allowed', field: 'arrivalId' });
    hall.refuses('arrival.void', { arrivalId: 9, reason: 'none' }, { code: 'unknown', field: 'arrivalId' });
    sound(hall);
  });

  it('refuses more than was paid, a day to come, and another kind of money', () => {
    const hall = cardHall();
    hall.refuses('bank.arrive', { ...ARRIVE, amount: '100.01' }, { code: 'too_large', field: 'amount' });
    hall.refuses('bank.arrive', { ...ARRIVE, arrived: '100.01' }, { code: 'too_large', field: 'arrived' });
    hall.refuses('bank.arrive', { ...ARRIVE, day: '2026-03-01' }, { code: 'conflict', field: 'day' });
    hall.refuses('bank.arrive', { ...ARRIVE, method: 'other' }, { code: 'already', field: 'amount' });
    hall.refuses('bank.arrive', { ...ARRIVE, arrived: '0' }, { code: 'malformed', field: 'arrived' });
    hall.refuses('bank.arrive', ARRIVE, { code: 'not_allowed' }, 'till');
  });
});

/** Both checks in a deposit, and that of buyer 11 came back. */
function returnedHall(): Hall {
  const hall = paidHall();
  hall.must('bank.deposit', { saleId: 1, paymentIds: [OF_TEN, OF_ELEVEN] }, 'payout');
  hall.must('check.bounce', { paymentId: OF_ELEVEN, reason: 'no funds' }, 'payout');
  return hall;
}

describe('a check that came back', () => {
  it('is a line beside its deposit, which stays whole as on the slip: each is marked with its own day', () => {
    const hall = returnedHall();
    const view = () => bankView(hall.book, { id: 1 }, NOTHING, DAY);
    const lines = (all: readonly { readonly amount: string; readonly words: string }[]) =>
      all.map(({ amount, words }) => [amount, words.split(', Late')[0]]);
    const deposit = ['335.48 in', 'Deposit 1: 2 checks'];
    const back = ['223.65 out', 'Came back: Paid in by buyer 11, check 88'];
    expect(depositsOf(hall.book, 1).map(({ totalCents }) => totalCents)).toEqual([33_548]);
    expect([lines(view().inTransit), lines(view().returned)]).toEqual([[deposit], [back]]);
    expect(view().checksOut.map(({ amount }) => amount)).toEqual(['88.75 out', '182.75 out']);
    // 335.48 − 223.65 − 88.75 − 182.75; nothing of it is on the statement.
    expect(view().steps.map(([, words]) => words)).toEqual(['-159.67', '271.50', '335.48', '223.65', '0.00']);
    const [depositId, backId] = ['Deposit 1', 'Came back'].map(
      (memo) => bankEntries(hall.book).find((one) => one.memo.startsWith(memo))?.entryId ?? 0,
    );
    const clear = (entryId = 0, day = DAY) => ({ entryIds: [entryId], day });
    hall.must('bank.clear', clear(depositId), 'payout');
    expect(view().steps.at(-1)).toEqual(['What the statement should say', '335.48']);
    hall.must('bank.clear', clear(backId), 'payout');
    expect(lines(view().cleared)).toEqual([back, deposit]);
    expect(view().steps.at(-1)).toEqual(['What the statement should say', '111.83']);
    sound(hall);
  });

  it('may have come back before it was entered, and never before it was deposited', () => {
    const entry = (entryId: number, over: Partial<BankEntry>) => ({
      ...{ entryId, memo: 'one', reversesId: null, withId: null, clearedOn: null, day: '2026-03-01' },
      ...{ amountCents: cents(335_48), ...over },
    });
    const back = entry(2, { day: '2026-03-09', withId: 1, amountCents: cents(-223_65) });
    const may = (day: string) =>
      decideClear({ entry: back, takenBack: false, depositedOn: '2026-03-01', day, today: '2026-03-09' });
    expect([may('2026-03-01').ok, may('2026-03-05').ok]).toEqual([true, true]);
    expect(may('2026-02-28')).toMatchObject({ code: 'conflict', field: 'day' });
    const entries = [entry(1, { clearedOn: '2026-03-02' }), { ...back, clearedOn: '2026-03-05' }];
    const should = (day: string) => reconcile(entries, day).statementCents;
    expect([should('2026-03-04'), should('2026-03-05'), should('2026-03-09')]).toEqual([33_548, 11_183, 11_183]);
  });
});

describe('the paper of the reconciliation', () => {
  const { book } = returnedHall();

  it('leads from the statement to the book, with every item', () => {
    const paper = reconciliationOf(book, { day: DAY, statement: '100.00', other: '100.00' }, DAY);
    const words = paper.tables.map(({ rows }) => rows.map((row) => row.map((one) => one.words)));
    expect(words[0]).toEqual([
      ['Balance of the statement', '100.00'],
      ['less money that this book does not know', '100.00'],
      ['plus deposits in transit: 1', '335.48'],
      ['less outstanding checks: 2', '271.50'],
      ['less checks that came back: 1', '223.65'],
      ['Balance by the statement', '-159.67'],
      ['Balance by the book', '-159.67'],
    ]);
    expect(paper.opening[0]).toBe('The statement and the book agree.');
    expect(paper.opening[1]).toContain('the account is 159.67 below zero');
    expect(words[2]?.map((row) => row.at(-1))).toEqual(['88.75', '182.75']);
    expect(paper.tables.map(({ sumAmount }) => sumAmount)).toEqual([undefined, '335.48', '271.50', '223.65']);
    const off = reconciliationOf(book, { day: DAY, statement: '101.50', other: '100.00' }, DAY);
    expect(off.opening[0]).toContain('The statement has 1.50 more than the book');
    expect(reconciliationOf(book, NOTHING, DAY).opening[0]).toContain('No balance');
  });

  it('adds up line by line in the file', () => {
    const typed = { day: DAY, statement: '101.50', other: '100.00' };
    const rows = parse(reconciliationFile(book, typed, DAY), { columns: true }) as Record<string, string>[];
    expect(rows.map(({ part, amount }) => [part, amount])).toEqual([
      ...[
        ['statement', '101.50'],
        ['unknown', '-100.00'],
        ['in_transit', '335.48'],
      ],
      ...[
        ['outstanding', '-88.75'],
        ['outstanding', '-182.75'],
        ['returned', '-223.65'],
        ['book', '-159.67'],
        ['difference', '1.50'],
      ],
    ]);
  });
});
