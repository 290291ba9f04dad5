/**
 * One evening worked by hand, cent by cent, through everything that happens to money: a lot bought back, a set-off, an
 * unpaid lot, a write-off, a waived charge, an advance, a raffle, a drawer that is short, a deposit, and a check that comes
 * back after the closing. The sums are those of docs/exchange.md by their numbers; how such things are booked is common practice, no
 * source. hledger (hledger.org) adds up the journal a second time.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { renderSheets } from '#app/papers/render.ts';
import { journalProblems } from '#db/account/check.ts';
import { accountBalance, journalEntries } from '#db/account/queries.ts';
import { saleById } from '#db/book/find.ts';
import { issuedInvoices } from '#db/invoice/queries.ts';
import { drawerOverShort } from '#db/report/closing.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { payoutPapers } from '#db/settlement/papers.ts';
import { issuedSheets } from '#db/settlement/sheets.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { buyerAccounts } from '#lib/buyer/buyer.ts';
import { invoiceList } from '#lib/buyer/lists.ts';
import { formatMoney } from '#lib/money/money.ts';
import { ledgerText } from '#lib/report/journal.ts';
import { revenueOf } from '#lib/report/revenue.ts';
import { CLOSE_QUESTIONS } from '#lib/sale/stage.ts';
import { oneSpaced, readBack } from '#tests/papers/support/pdf.ts';
import { openHall } from '#tests/support/hall.ts';
import { balancesOf, hledger } from '#tests/support/judges.ts';

const hall = openHall();
const { book, must } = hall;
const saleId = 1;

/**
 * Ada sells as number 1 and buys as 12, Bea as 2 and 10, Cal as 3 and 11; all are members. 6 % commission, 0.25 a lot,
 * 5.00 a number, a no-sale 1.00 and 2 % of the minimum; 5 % premium, 6.5 % tax.
 */
function untilClosed(): void {
  must('seller.register', { saleId, sellerNo: 2, partners: [{ personId: 2 }] });
  must('seller.register', { saleId, sellerNo: 3, partners: [{ personId: 3 }] });
  const lot = (sellerNo: number, count: string, minimum = '') =>
    must('lot.add', { saleId, sellerNo, goods: 'raccoon', count, minimum });
  for (const [sellerNo, count] of [
    [1, '10'],
    [1, '4'],
    [2, '20'],
    [3, '6'],
    [3, '2'],
  ] as const)
    lot(sellerNo, count);
  lot(2, '5', '6.00');
  const sold = (lotNo: string, price: string, buyerNo: number) =>
    must('outcome.record', { saleId, lotNo, kind: 'sold', price, buyerNo }, 'block');
  sold('1', '10.00', 10);
  must('outcome.record', { saleId, lotNo: '2', kind: 'bought_back', price: '5.00' }, 'block');
  sold('3', '8.00', 11);
  sold('4', '7.50', 12);
  sold('5', '9.00', 10);
  must('outcome.record', { saleId, lotNo: '6', kind: 'passed' }, 'block');
  must('sale.stage', { saleId, stage: 'settling', reason: '' });

  must('outcome.unpaid', { saleId, buyerNo: 10, lots: ['5'], fate: 'seller', reason: 'changed her mind' }, 'till');
  const charge = must('charge.add', {
    saleId,
    sellerNo: 1,
    kind: 'adjustment',
    amount: '3.00',
    how: 'deducted',
    note: 'table',
  });
  must('charge.waive', { chargeId: charge.chargeId, reason: 'helped to carry' }, 'payout');
  must('charge.add', { saleId, sellerNo: 2, kind: 'advance', amount: '10.00', how: 'deducted', note: '' });

  must('drawer.record', { saleId, kind: 'opened', pieces: [{ denomination: '20.00', pieces: '2' }] });
  for (const buyerNo of [10, 11, 12]) must('invoice.issue', { saleId, buyerNo }, 'till');
  const paid = { saleId, direction: 'in' } as const;
  must('payment.record', { ...paid, buyerNo: 10, method: 'check', amount: '111.83', reference: '501' }, 'till');
  must('payment.record', { ...paid, buyerNo: 11, method: 'cash', amount: '100.00' }, 'till');
  must('taking.record', { saleId, kind: 'raffle', amount: '12.50' }, 'till');
  for (const sellerNo of [1, 2, 3]) must('settlement.issue', { saleId, sellerNo }, 'payout');
  must('payment.setoff', { saleId, buyerNo: 12, sellerNo: 1, personId: 1, amount: '50.32' }, 'payout');
  must('payment.setoff', { saleId, buyerNo: 11, sellerNo: 3, personId: 3, amount: '37.05' }, 'payout');
  must('payment.writeoff', { saleId, buyerNo: 11, amount: '41.87', reason: 'moved away' }, 'payout');
  must('check.write', { saleId, sellerNo: null, firstNumber: 1041, seen: 2 }, 'payout');
  const counted = [
    { denomination: '50.00', pieces: '3' },
    { denomination: '1.00', pieces: '2' },
  ];
  must('drawer.record', { saleId, kind: 'closed', pieces: counted, note: 'change' });
  const check = book.sqlite.prepare("SELECT id FROM payment WHERE reference = '501'").pluck().get() as number;
  must('bank.deposit', { saleId, paymentIds: [check], cash: '102.00' }, 'payout');
  must('sale.stage', { saleId, stage: 'closed', reason: '', answered: [...CLOSE_QUESTIONS] });
}

/** 100.00 + 12.50 − 0.50 lies in the drawer above the float; with the checks, 36.98 + 133.30 and the advance it is 43.55. */
const COUNTED = [
  'Cash short by 0.50: change -0.50',
  'Cash, as counted, less the float: drawer or bank 112.00',
  'Together 43.55',
  'Cash over and short -0.50',
  'Kept in all 22.73',
];

const ledger = () => balancesOf(ledgerText(journalEntries(book, saleId), 'USD'), 'USD');
const account = (name: string) => formatMoney(accountBalance(book, saleId, name));
const textOf = async (papers: Parameters<typeof renderSheets>[0]) =>
  oneSpaced(readBack(await renderSheets(papers, { size: 'letter' })).text);

beforeAll(untilClosed);

describe('the papers of the evening', () => {
  it('are right to the cent on every settlement sheet', async () => {
    const sheets = issuedSheets(book, saleId).map(({ sheet }) => sheet);
    // 100.00 − 6.00, and of the lot bought back at 20.00 its 1.20; 2 × 0.25, 5.00.
    // 160.00 − 9.60 − 0.50 − (1.00 + 2 % of 30.00) − 5.00 − 10.00. And 45.00 − 2.70 − 0.25 − 5.00.
    expect(sheets.map(({ totals }) => formatMoney(totals.netCents))).toEqual(['87.30', '133.30', '37.05']);
    const text = await textOf(sheets);
    for (const words of ['Bought back', '1.20', '7.20', '87.30', 'Not paid for', '1.60', '133.30', '37.05']) {
      expect(text).toContain(words);
    }
    expect(text).not.toContain('Adjustment');
  });

  it('are right to the cent on every invoice', async () => {
    const text = await textOf(issuedInvoices(book, saleId).map(({ invoice }) => invoiceList(invoice)));
    // 6.5 % of 105.00, 168.00 and 47.25 is 6.825, 10.92 and 3.07125.
    for (const words of ['6.83', '111.83', '10.92', '178.92', '3.07', '50.32']) expect(text).toContain(words);
    expect(text).not.toContain('18.00');
  });

  it('are right on the checks, the deposit slip and the closing report', async () => {
    const sale = saleById(book, saleId);
    if (!sale) throw new Error('no sale');
    const of = (paper: string, over = {}) =>
      payoutPapers(book, sale, { paper, drawnOn: '2026-02-28', check: null, deposit: null, ...over }) ?? [];
    // 87.30 − 50.32; Bea's net whole; Cal's net is set off.
    const register = await textOf(of('check-register'));
    for (const words of ['1041', '36.98', '1042', '133.30']) expect(register).toContain(words);
    const slip = await textOf(of('deposit-slip', { deposit: '1' }));
    // 40.00 + 100.00 + 12.50 less the 0.50 that was short, the float and the advance.
    for (const words of ['111.83', 'Cash 102.00', 'Deposit 213.83']) expect(slip).toContain(words);
    const closing = await textOf(of('closing-report'));
    for (const words of ['Set off', 'Written off', '41.87', 'Raffle', '12.50', ...COUNTED])
      expect(closing).toContain(words);
  });
});

describe('the accounts of the evening', () => {
  it('are at zero at the closing, and hledger agrees with each', () => {
    expect(hledger(ledgerText(journalEntries(book, saleId), 'USD'), 'check', '--strict')).toBe('');
    const expected = {
      'Assets:Bank': '43.55',
      'Expenses:Debts written off': '41.87',
      "Income:Buyer's premium": '-15.25',
      'Income:Cash over and short': '0.50',
      'Income:Commission': '-19.50',
      'Income:Lot fees': '-1.25',
      'Income:No-sale fees': '-1.60',
      'Income:Raffle': '-12.50',
      'Income:Seller numbers': '-15.00',
      'Liabilities:Sales tax': '-20.82',
    };
    const open = [...ledger()].filter(([, amount]) => amount !== '0.00' && amount !== '0');
    expect(Object.fromEntries(open)).toEqual(expected);
    expect(formatMoney(revenueOf(saleFacts(book, saleId), drawerOverShort(book, saleId)).revenueCents)).toBe('22.73');
    expect(journalProblems(book, saleId, saleFacts(book, saleId))).toEqual([]);
  });

  it('take the check that came back as a dated entry, without opening the sale', () => {
    const before = journalEntries(book, saleId);
    const check = book.sqlite.prepare("SELECT id FROM payment WHERE reference = '501'").pluck().get() as number;
    must('check.bounce', { paymentId: check, fee: '25.00', reason: 'not paid by the bank' }, 'payout');
    expect(saleById(book, saleId)?.stage).toBe('closed');
    expect(journalEntries(book, saleId).slice(0, before.length)).toEqual(before);
    // 111.83 and the fee; the bank has 43.55 less 111.83.
    expect([account('Assets:Buyers:10'), account('Assets:Bank')]).toEqual(['136.83', '-68.28']);
    const owing = buyerAccounts(saleFacts(book, saleId)).find(({ buyerNo }) => buyerNo === 10)?.owingCents;
    expect(owing).toBe(13_683);
    const balances = ledger();
    expect([balances.get('Assets:Buyers:10'), balances.get('Assets:Bank')]).toEqual(['136.83', '-68.28']);
    expect(journalProblems(book, saleId, saleFacts(book, saleId))).toEqual([]);
    expect(checkReplay(book.sqlite)).toMatchObject({ ok: true });
  });
});
