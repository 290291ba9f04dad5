/**
 * The journal of a sale, followed entry by entry. Its figures are worked out by hand below; the rules of double entry are
 * those of every textbook of bookkeeping (from memory), and hledger reads the same journal in tests/outside.
 */
import { describe, expect, it } from 'vitest';
import { journalProblems } from '#db/account/check.ts';
import { accountBalance, journalEntries } from '#db/account/queries.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { formatMoney, negate } from '#lib/money/money.ts';
import { accountBalances, journalOf } from '#lib/report/journal.ts';
import { CLOSE_QUESTIONS } from '#lib/sale/stage.ts';
import { exportFiles, importFiles, withBook } from '#tests/support/exchange.ts';
import { type Hall, openHall } from '#tests/support/hall.ts';

const DRAWER = 'Assets:Cash:Drawer';
const OUTSIDE = 'Assets:Cash:Outside the drawer';

/** Lots 1 and 2 of seller 1, ten raccoons each: the first sold to buyer 10 at 20.00, the second to buyer 11 at 10.00. */
function evening(): Hall {
  const hall = openHall();
  hall.must('lot.add', { saleId: 1, sellerNo: 1, goods: 'raccoon', count: '10' });
  hall.must('lot.add', { saleId: 1, sellerNo: 1, goods: 'raccoon', count: '10' });
  hall.must('outcome.record', { saleId: 1, lotNo: '1', kind: 'sold', price: '20.00', buyerNo: 10 });
  hall.must('outcome.record', { saleId: 1, lotNo: '2', kind: 'sold', price: '10.00', buyerNo: 11 });
  return hall;
}

/** The entries from number `from` on, each as its postings in words. */
function told({ book }: Hall, from = 1): string[][] {
  return journalEntries(book, 1)
    .filter(({ number }) => number >= from)
    .map(({ memo, postings }) => [
      memo,
      ...postings.map((one) => `${one.account} ${formatMoney(one.debitCents || negate(one.creditCents))}`),
    ]);
}

const balance = ({ book }: Hall, account: string) => formatMoney(accountBalance(book, 1, account));
const problems = ({ book }: Hall) => journalProblems(book, 1, saleFacts(book, 1));
const pieces = (denomination: string, count: string) => [{ denomination, pieces: count }];

describe('the journal', () => {
  it('has a bill, a sheet and money as they come, and no hammer price before', () => {
    const hall = evening();
    expect(told(hall)).toEqual([]);
    // 200.00 + 5 % premium, 6.5 % tax of 210.00.
    hall.must('invoice.issue', { saleId: 1, buyerNo: 10 });
    hall.must('payment.record', {
      saleId: 1,
      direction: 'in',
      buyerNo: 10,
      method: 'check',
      amount: '223.65',
      reference: '81',
    });
    hall.must('sale.stage', { saleId: 1, stage: 'settling', reason: '' });
    hall.must('settlement.issue', { saleId: 1, sellerNo: 1 });
    const [bill, paid, sheet] = told(hall);
    expect(bill).toEqual([
      'Invoice 1 of buyer 10',
      'Assets:Buyers:10 223.65',
      'Liabilities:Fur sold and not settled -200.00',
      "Income:Buyer's premium -10.00",
      'Liabilities:Sales tax -13.65',
    ]);
    expect(paid).toEqual(['Paid in by buyer 10, check 81', 'Assets:Checks 223.65', 'Assets:Buyers:10 -223.65']);
    expect(sheet?.[0]).toBe('Settlement sheet 1 of seller 1');
    expect(sheet).toContain('Liabilities:Fur sold and not settled 300.00');
    expect(problems(hall)).toEqual([]);
  });

  it('reverses what is corrected and posts what is right, on the day of the correction', () => {
    const hall = evening();
    hall.must('invoice.issue', { saleId: 1, buyerNo: 10 });
    const replacesId = 1;
    hall.must('outcome.correct', {
      lotId: 1,
      replacesId,
      kind: 'sold',
      price: '21.00',
      buyerNo: 10,
      reason: 'misheard',
    });
    const from = journalEntries(hall.book, 1).length + 1;
    hall.must('invoice.issue', { saleId: 1, buyerNo: 10 });
    expect(told(hall, from)).toEqual([
      [
        'Taken back: Invoice 1 of buyer 10',
        'Assets:Buyers:10 -223.65',
        'Liabilities:Fur sold and not settled 200.00',
        "Income:Buyer's premium 10.00",
        'Liabilities:Sales tax 13.65',
      ],
      [
        'Invoice 2 of buyer 10',
        'Assets:Buyers:10 234.83',
        'Liabilities:Fur sold and not settled -210.00',
        "Income:Buyer's premium -10.50",
        'Liabilities:Sales tax -14.33',
      ],
    ]);
  });

  it('follows the drawer: float, cash, over or short, and what was taken back after it was closed', () => {
    const hall = evening();
    const cash = { saleId: 1, direction: 'in', buyerNo: 10, method: 'cash' } as const;
    hall.must('payment.record', { ...cash, amount: '3.00' });
    expect([balance(hall, DRAWER), balance(hall, OUTSIDE)]).toEqual(['0.00', '3.00']);
    hall.must('drawer.record', { saleId: 1, kind: 'opened', pieces: pieces('20.00', '2') });
    expect([balance(hall, DRAWER), balance(hall, OUTSIDE)]).toEqual(['40.00', '-37.00']);
    const { paymentId } = hall.must('payment.record', { ...cash, amount: '60.00' });
    expect([balance(hall, DRAWER), balance(hall, OUTSIDE)]).toEqual(['100.00', '-37.00']);
    // A dollar is missing when it is counted.
    const closed = { saleId: 1, kind: 'closed', note: 'recounted', pieces: pieces('1.00', '99') } as const;
    const { entryId } = hall.must('drawer.record', closed);
    expect([balance(hall, DRAWER), balance(hall, OUTSIDE)]).toEqual(['0.00', '62.00']);
    expect(balance(hall, 'Income:Cash over and short')).toBe('1.00');
    // The last count is taken back: nothing was short, and the drawer is open as it was.
    hall.must('drawer.void', { entryId, reason: 'a bill lay under it' });
    expect([balance(hall, DRAWER), balance(hall, OUTSIDE)]).toEqual(['100.00', '-37.00']);
    expect(balance(hall, 'Income:Cash over and short')).toBe('0.00');
    hall.must('drawer.record', { ...closed, pieces: pieces('1.00', '100') });
    // What is handed back now comes out of the cash outside of the drawer.
    hall.must('payment.void', { paymentId, reason: 'came by check' });
    expect([balance(hall, DRAWER), balance(hall, OUTSIDE)]).toEqual(['0.00', '3.00']);
    expect(problems(hall)).toEqual([]);
  });

  it('does not post a difference again where the next drawer is opened by mistake', () => {
    const hall = evening();
    hall.must('drawer.record', { saleId: 1, kind: 'opened', pieces: pieces('20.00', '2') });
    hall.must('drawer.record', { saleId: 1, kind: 'closed', note: 'one is gone', pieces: pieces('20.00', '1') });
    const { entryId } = hall.must('drawer.record', { saleId: 1, kind: 'opened', pieces: pieces('20.00', '1') });
    hall.must('drawer.void', { entryId, reason: 'not yet' });
    expect(balance(hall, 'Income:Cash over and short')).toBe('20.00');
    expect([balance(hall, DRAWER), balance(hall, OUTSIDE)]).toEqual(['0.00', '-20.00']);
  });

  it('is whole once the sale is closed, and closing it again posts nothing twice', () => {
    const hall = evening();
    for (const buyerNo of [10, 11]) hall.must('invoice.issue', { saleId: 1, buyerNo });
    hall.must('sale.stage', { saleId: 1, stage: 'settling', reason: '' });
    const accounts = { 10: '223.65', 11: '111.83' };
    for (const [buyerNo, amount] of Object.entries(accounts)) {
      hall.must('payment.record', { saleId: 1, direction: 'in', buyerNo: Number(buyerNo), method: 'check', amount });
    }
    hall.must('settlement.issue', { saleId: 1, sellerNo: 1 });
    const net = negate(accountBalance(hall.book, 1, 'Liabilities:Sellers:1'));
    hall.must('payment.record', {
      saleId: 1,
      direction: 'out',
      sellerNo: 1,
      personId: 1,
      method: 'cash',
      amount: formatMoney(net),
    });
    const closing = { saleId: 1, stage: 'closed', reason: '', answered: [...CLOSE_QUESTIONS] } as const;
    hall.must('sale.stage', closing);
    expect(balance(hall, 'Liabilities:Fur sold and not settled')).toBe('0.00');
    expect(problems(hall)).toEqual([]);
    // Opened again and closed, nothing is posted twice.
    const before = journalEntries(hall.book, 1);
    hall.must('sale.stage', { saleId: 1, stage: 'settling', reason: 'one more look' });
    hall.must('sale.stage', closing);
    expect(journalEntries(hall.book, 1)).toEqual(before);
  });

  it('of a sale that came in as a folder is whole at once, on the day of the sale', () => {
    const files = exportFiles(evening().book, 1);
    withBook((book) => {
      importFiles(book, files);
      const entries = journalEntries(book, 1);
      expect(new Set(entries.map(({ date }) => date))).toEqual(new Set(['2026-02-28']));
      const worked = accountBalances(journalOf(saleFacts(book, 1)));
      const posted = accountBalances(entries);
      expect(posted.get('Liabilities:Fur sold and not settled')).toBe(0);
      for (const [account, amount] of worked) expect([account, posted.get(account)]).toEqual([account, amount]);
      expect(worked.size).toBeGreaterThan(3);
    });
  });
});
