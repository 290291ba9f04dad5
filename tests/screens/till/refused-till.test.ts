/**
 * What a cashier reads when the Till says no, brought about in the browser as it happens in a hall: by a slip of the
 * hand, or because another station was quicker and the page has not heard of it yet.
 */
import { describe, it } from 'vitest';
import { testHouse } from '#tests/screens/support/house.ts';
import { folded, press, refusedAll, typed } from '#tests/screens/support/refused.ts';
import { type Hall, openHall } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

/** Each lot is ten raccoons at 10.00: with 5 % premium and 6.5 % tax that makes 111.83. Lot 5 is a no-sale. */
const house = testHouse((file) => {
  const { book, must } = openHall({ file });
  must('person.enrol', { name: 'Eve Frost' });
  must('buyer.register', { saleId: 1, buyerNo: 14, personId: 4 });
  for (const buyerNo of [10, 11, 12, 10, null]) {
    const { lotNo } = must('lot.add', { saleId: 1, sellerNo: 1, goods: 'raccoon', count: '10' });
    if (buyerNo === null) must('outcome.record', { saleId: 1, lotNo, kind: 'passed' });
    else must('outcome.record', { saleId: 1, lotNo, kind: 'sold', price: '10.00', buyerNo, answered: ['seller_buys'] });
  }
  book.close();
});

const paid = { saleId: 1, direction: 'in', answered: ['more_than_owed'] } as const;
const VOID = ['Why it is voided', 'typed twice', 'Void the payment'] as const;
const open = (hall: Hall) =>
  hall.must('drawer.record', { saleId: 1, kind: 'opened', pieces: [{ denomination: '20', pieces: '1' }] });
const hand = (hall: Hall, buyerNo: number, lots: readonly string[]) =>
  hall.must('handover.record', {
    saleId: 1,
    buyerNo,
    lots: [...lots],
    pieces: String(lots.length * 10),
    takenBy: 'Ada Birch',
  });
const correct = (hall: Hall, lotId: number, replacesId: number, buyerNo: number) =>
  hall.must('outcome.correct', {
    ...{ lotId, replacesId, kind: 'sold', price: '10.00', buyerNo, reason: 'misheard' },
    answered: ['seller_buys'],
  });

describe('the Till says no', () => {
  it('to an amount that is none, and to money back that is not there', () =>
    refusedAll(house, [
      { path: '/till/10', act: typed('Amount taken', '', 'Take the payment'), says: 'Enter an amount, such as 12.50.' },
      { path: '/till/10', act: typed('Amount taken', '1.2.0', 'Take the payment'), says: 'Use one point only: 12.50.' },
      {
        path: '/till/11',
        first: ({ must }) => must('payment.record', { ...paid, buyerNo: 11, method: 'check', amount: '300.00' }),
        act: typed('Amount handed back', '200', 'Hand it back'),
        says: 'Buyer 11 has overpaid by $188.17: hand back no more than that.',
      },
      {
        path: '/till/11',
        first: open,
        act: typed('Amount handed back', '188.17', 'Hand it back'),
        says: 'The drawer should hold 20.00; you pay 188.17 in cash.',
      },
      {
        path: '/till/11',
        behind: ({ must }) =>
          must('payment.record', { saleId: 1, direction: 'out', buyerNo: 11, method: 'other', amount: '188.17' }),
        act: (page) => press(page, 'Hand it back'),
        says: /^Buyer 11 has nothing to get back\. \$188\.17 was handed back .*\.$/,
      },
    ]));

  it('to voiding without a reason, twice, or what the bank has', () =>
    refusedAll(house, [
      {
        path: '/till/11',
        act: folded('Void 300.00', VOID[0], '', VOID[2]),
        says: 'Say why in a few words, such as: typed twice.',
      },
      {
        path: '/till/11',
        behind: ({ must }) => must('payment.void', { paymentId: 2, reason: 'wrong buyer' }),
        act: folded('Void 188.17', ...VOID),
        says: 'This payment was already voided.',
      },
      {
        path: '/till/11',
        behind: ({ must }) => must('bank.deposit', { saleId: 1, paymentIds: [1], cash: '' }),
        act: folded('Void 300.00', ...VOID),
        says: 'This check is in deposit 1: record it as returned if it came back, or void the deposit first.',
      },
    ]));

  it('to an invoice that another cashier has issued, and to a clearance given twice', () =>
    refusedAll(house, [
      {
        path: '/till/10/invoice',
        behind: ({ must }) => must('invoice.issue', { saleId: 1, buyerNo: 10 }),
        act: (page) => press(page, 'Issue the invoice'),
        says: /Print that one again; an issued invoice is never changed\.$/,
      },
      {
        path: '/till/14',
        behind: ({ must }) => must('buyer.clear', { saleId: 1, buyerNo: 14, cleared: true }),
        act: (page) => press(page, 'Clear to buy'),
        says: 'Buyer 14 is already cleared.',
      },
    ]));

  it('to a number, a ticket or a buyer’s details that are not right', () =>
    refusedAll(house, [
      {
        path: '/till',
        act: typed('Buyer number', 'abc', 'Show the account'),
        says: 'Enter a buyer number, such as 12, or W for a walk-in.',
      },
      {
        path: '/till',
        act: typed('Buyer number', 'S1LOT5', 'Show the account'),
        says: /^Lot 5 is .*: it has no buyer\.$/,
      },
      {
        path: '/till/10/details',
        act: async (page) => {
          await page.getByLabel('Pays no sales tax').check();
          await press(page, 'Keep the details');
        },
        says: 'Enter the number of the exemption, as the certificate shows it.',
      },
      {
        path: '/till',
        act: async (page) => {
          await page.getByRole('combobox', { name: 'Who wants to buy?' }).fill('Eve');
          await page.getByRole('option', { name: /Eve Frost/ }).click();
          await page.getByLabel('Pays no sales tax').check();
          await press(page, 'Give a buyer number');
        },
        says: 'Enter the number of the exemption, as the certificate shows it.',
      },
    ]));

  it('to lots that are not ticked, are somebody else’s, are gone, or never went', () =>
    refusedAll(house, [
      {
        path: '/till/12/hand-over',
        first: ({ must }) => must('payment.record', { ...paid, buyerNo: 12, method: 'check', amount: '111.83' }),
        act: typed('Pieces counted', '10', 'Hand over'),
        says: 'Tick or scan the lots that are handed over.',
      },
      {
        path: '/till/12/hand-over',
        behind: (hall) => hand(hall, 12, ['3']),
        act: async (page) => {
          await press(page, 'Tick all');
          await typed('Pieces counted', '10', 'Hand over')(page);
        },
        says: 'Lot 3 is already handed over: take it off the list.',
      },
      {
        path: '/till/12/hand-over',
        behind: ({ must }) => must('handover.return', { saleId: 1, lotNo: '3', reason: 'the wrong bundle' }),
        act: folded('A lot came back', 'Why it came back', 'the wrong bundle', 'Take it back'),
        says: 'Lot 3 was not handed over: it is still on the table.',
      },
      {
        path: '/till/10/hand-over',
        behind: (hall) => correct(hall, 4, 4, 11),
        act: async (page) => {
          await page.getByLabel(/^Lot 4: /).check();
          await typed('Pieces counted', '10', 'Hand over')(page);
        },
        says: 'Lot 4 is not sold to buyer 10: leave it on the table.',
      },
    ]));

  it('to a lot put down as not paid for that is no longer this buyer’s, and to no reason', () =>
    refusedAll(house, [
      {
        path: '/till/10',
        act: folded('Not paid for', 'Why', '', 'Put down as not paid for'),
        says: 'Say why in a few words, such as: typed twice.',
      },
      {
        path: '/till/10',
        behind: (hall) => correct(hall, 1, 1, 11),
        act: folded('Not paid for', 'Why', 'never seen again', 'Put down as not paid for'),
        says: /^Lot 1 /,
      },
    ]));

  it('to a drawer that is not counted, not open, open already, or has moved on', () =>
    refusedAll(house, [
      {
        path: '/till/drawer',
        act: async (page) => {
          await page.getByLabel('What to do').selectOption('Put money in');
          await press(page, 'Record what was put in');
        },
        says: 'Enter what was put in.',
      },
      {
        path: '/till/drawer',
        act: async (page) => {
          await page.getByLabel('What to do').selectOption('Count and close it');
          await press(page, 'Close the drawer');
        },
        says: /short.*: count again, or say in the note why that is so\.$/,
      },
      {
        path: '/till/drawer',
        behind: ({ must }) => must('drawer.record', { saleId: 1, kind: 'counted', pieces: [], note: 'empty' }),
        act: folded('Void this entry', 'Why it is voided', 'typed twice', 'Void the entry'),
        says: /^Only the newest entry/,
      },
      {
        path: '/till/drawer',
        behind: ({ must }) =>
          must('drawer.record', { saleId: 1, kind: 'closed', pieces: [], note: 'a test counts nothing' }),
        act: (page) => press(page, 'Record the count'),
        says: 'The drawer is not open: open it with what lies in it first.',
      },
      {
        path: '/till/drawer',
        behind: open,
        act: (page) => press(page, 'Open the drawer'),
        says: 'The drawer is open already: count it, or close it first.',
      },
    ]));

  it('to a taking without an amount, or voided twice', () =>
    refusedAll(house, [
      { path: '/till/takings', act: typed('Amount', '', 'Record it'), says: 'Enter an amount, such as 12.50.' },
      {
        path: '/till/takings',
        first: ({ must }) =>
          must('taking.record', { saleId: 1, kind: 'raffle', method: 'cash', amount: '5.00', note: '' }),
        behind: ({ must }) => must('taking.void', { takingId: 1, reason: 'typed twice' }),
        act: async (page) => {
          await page.getByText('Earlier days').click();
          await folded('Void 5.00', VOID[0], VOID[1], 'Void the taking')(page);
        },
        says: 'This taking was already voided.',
      },
    ]));

  it('to money of a sale that was closed meanwhile', () =>
    refusedAll(house, [
      {
        path: '/till/11',
        behind: (hall) => closeSale(hall, 1),
        act: (page) => press(page, 'Take the payment'),
        says: 'The sale is closed: reopen it first.',
      },
    ]));
});
