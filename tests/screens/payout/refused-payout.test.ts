/**
 * What a treasurer reads when Payout says no, brought about in the browser as it happens on the evening: by a slip of
 * the hand, or because somebody else was quicker and the page has not heard of it yet.
 */
import type { Page } from 'playwright-core';
import { describe, it } from 'vitest';
import { testHouse } from '#tests/screens/support/house.ts';
import { folded, press, refusedAll, typed } from '#tests/screens/support/refused.ts';
import { openHall } from '#tests/support/hall.ts';
import { paidHall } from '#tests/support/sales.ts';

/** Sellers 1, 2 and 3 sold ten raccoons at 10.00 each to buyers 10 and 11; a lot of seller 4 was not called. */
const house = testHouse((file) => {
  const { book, must } = openHall({ file });
  for (const name of ['Eve Frost', 'Fay Grove']) must('person.enrol', { name, memberUntil: '2026-12-31' });
  for (const [sellerNo, personId] of [
    [2, 4],
    [3, 5],
    [4, 3],
  ] as const)
    must('seller.register', { saleId: 1, sellerNo, partners: [{ personId }] });
  for (const [sellerNo, buyerNo] of [
    [1, 10],
    [2, 11],
    [3, 10],
    [4, null],
  ] as const) {
    const { lotNo } = must('lot.add', { saleId: 1, sellerNo, goods: 'raccoon', count: '10' });
    if (buyerNo) must('outcome.record', { saleId: 1, lotNo, kind: 'sold', price: '10.00', buyerNo });
  }
  book.close();
});

/** Checks 501 and 502 are written, two checks were taken in, and 30.00 in cash lie outside the drawer. */
const bank = testHouse((file) => {
  const { book, must } = paidHall(file);
  must('taking.record', { saleId: 1, kind: 'raffle', method: 'card', amount: '100.00', note: '' });
  book.close();
});

const PAY = 'Number on the check';
const VOID = ['Why?', 'typed twice'] as const;

describe('Payout says no', () => {
  it('to a sheet with lots that were not called, and to one that is issued', () =>
    refusedAll(house, [
      {
        path: '/payout/4',
        act: (page) => press(page, 'Issue the sheet'),
        says: 'Lot 4 is of seller number 4 and still to be called. Call or withdraw them, or take the sale to settling.',
      },
      {
        path: '/payout/1',
        behind: ({ must }) => must('settlement.issue', { saleId: 1, sellerNo: 1 }),
        act: (page) => press(page, 'Issue the sheet'),
        says: /Print that one again; an issued sheet is never changed\.$/,
      },
      {
        path: '/payout',
        behind: ({ must }) => must('settlement.issue', { saleId: 1, sellerNo: 2 }),
        act: async (page) => {
          await press(page, 'Issue the 2 sheets that are ready');
          await press(page, 'Yes, issue 2 sheets');
        },
        says: 'It is now 1 sheet, not 2. Look at them and answer again.',
      },
      {
        path: '/payout/4',
        first: ({ must }) => must('sale.stage', { saleId: 1, stage: 'settling', reason: '', left: 1 }),
        act: (page) => press(page, 'Issue the sheet'),
        says: '1 lot of seller number 4 has not been called: 4. Issue the sheet anyway?',
      },
    ]));

  it('to a check that is written, twice the money, and cash that is not there', () =>
    refusedAll(house, [
      { path: '/payout/1', act: typed(PAY, '', 'Pay by check'), says: /^Enter the number/ },
      {
        path: '/payout/2',
        first: ({ must }) =>
          must('drawer.record', { saleId: 1, kind: 'opened', pieces: [{ denomination: '20', pieces: '1' }] }),
        act: folded('Pay Eve Frost by hand', 'Amount', '88.75', 'Pay 88.75'),
        says: 'The drawer should hold 20.00; you pay 88.75 in cash.',
      },
      {
        path: '/payout/2',
        act: folded('Pay Eve Frost by hand', 'Amount', '99.00', 'Pay 99.00'),
        says: 'Eve Frost is still owed $88.75 on seller number 2. Pay no more than that.',
      },
      {
        path: '/payout/1',
        behind: ({ must }) => must('check.write', { saleId: 1, sellerNo: 1, firstNumber: 501, seen: null }),
        act: typed(PAY, '600', 'Pay by check'),
        says: /^Ada Birch is already paid: check 501 over \$88\.75 was written .* Your check 600 is not written\.$/,
      },
      {
        path: '/payout/2',
        act: typed(PAY, '501', 'Pay by check'),
        says: 'Check 501 is written already: enter another number.',
      },
    ]));

  it('to a sheet that somebody has corrected, a charge waived twice, and no reason', () =>
    refusedAll(house, [
      {
        path: '/payout/2',
        first: ({ must }) =>
          must('charge.add', { saleId: 1, sellerNo: 2, kind: 'advance', amount: '5.00', how: 'deducted', note: '' }),
        act: (page) => press(page, 'Issue the correction sheet'),
        says: 'Say why in a few words, such as: typed twice.',
      },
      {
        path: '/payout/2',
        behind: ({ must }) =>
          must('settlement.correct', { saleId: 1, sellerNo: 2, reason: 'an advance was forgotten' }),
        act: typed('Why it is corrected', 'an advance was forgotten', 'Issue the correction sheet'),
        says: /^Sheet \d+ of seller number 2 is still right: there is nothing to correct\.$/,
      },
      {
        path: '/payout/2',
        behind: ({ must, book }) => {
          const chargeId = book.sqlite.prepare('SELECT max(id) FROM charge').pluck().get() as number;
          must('charge.waive', { chargeId, reason: 'was repaid' });
        },
        act: async (page) => {
          await page.getByText('Charges and credits').click();
          await folded('Waive Advance', 'Why it is waived', 'was repaid', 'Waive it')(page);
        },
        says: 'This charge was already voided.',
      },
      {
        path: '/payout/balance',
        behind: ({ must }) =>
          must('payment.record', { saleId: 1, direction: 'in', buyerNo: 11, method: 'check', amount: '111.83' }),
        act: folded(/of buyer 11/, 'Why it is given up', 'moved away', 'Write off'),
        says: 'Buyer 11 owes nothing.',
      },
    ]));

  it('to a check that is void, that the bank has paid, or whose number is used', () =>
    refusedAll(bank, [
      {
        path: '/payout/checks',
        act: async (page) => {
          await page.getByLabel('Which check').selectOption({ label: '501, Ada Birch' });
          await page.getByLabel('Why it is void').fill('torn');
          await typed('Number of the new check', '502', 'Write it anew')(page);
        },
        says: 'Check 502 is written already: take the number of the new check.',
      },
      {
        path: '/payout/checks',
        behind: ({ must }) => must('check.stop', { checkId: 2, kind: 'lost', reason: 'never came' }),
        act: async (page) => {
          await page.getByLabel('Which check').selectOption({ label: '502, Eve Frost' });
          await page.getByLabel('What happened').selectOption('It was lost');
          await typed('Why it is void', 'never came', 'Void it only')(page);
        },
        says: 'This check is void already.',
      },
      {
        path: '/payout/checks',
        behind: ({ must, book }) => {
          const find = `SELECT journal_entry.id FROM journal_entry JOIN payment ON payment.id = source_id
            WHERE journal_entry.kind = 'payment' AND reference LIKE '%501%'`;
          const entryId = book.sqlite.prepare(find).pluck().get() as number;
          must('bank.clear', { entryIds: [entryId], day: '2026-02-28' });
        },
        act: async (page) => {
          await page.getByLabel('Which check').selectOption({ label: '501, Ada Birch' });
          await page.getByLabel('What happened').selectOption('The bank stopped it');
          await typed('Why it is void', 'torn', 'Void it only')(page);
        },
        says: /^The bank has paid this check: it is on the statement of .*\. Take that mark away first if it is wrong\.$/,
      },
    ]));

  it('to a deposit of nothing, of too much, or of what another has banked', () =>
    refusedAll(bank, [
      {
        path: '/payout/bank',
        act: async (page) => {
          for (const words of [/of Bea Cole/, /of Cal Dunn/]) await page.getByLabel(words).uncheck();
          await typed('Cash', '', 'Banked')(page);
        },
        says: 'Tick the checks, or enter the cash, that went to the bank.',
      },
      { path: '/payout/bank', act: typed('Cash', '30.01', 'Banked'), says: /30\.00/ },
      {
        path: '/payout/bank',
        behind: ({ must }) => must('bank.deposit', { saleId: 1, paymentIds: [2], cash: '' }),
        act: (page) => press(page, 'Banked'),
        says: 'Payment 2 is in deposit 1 already: leave it out.',
      },
      {
        path: '/payout/bank',
        behind: ({ must }) => must('deposit.void', { depositId: 1, reason: 'never taken there' }),
        act: folded('Void deposit 1', VOID[0], VOID[1], 'Void the deposit'),
        says: 'This deposit was already voided.',
      },
    ]));

  it('to marks on days that cannot be, or that somebody else has set or taken away', () =>
    refusedAll(bank, [
      {
        path: '/payout/bank',
        act: async (page) => {
          await page.getByText('On the statement: 1').click();
          await page.getByLabel(/check 501/).check();
          await press(page, 'Not on the statement');
        },
        behind: ({ must, book }) =>
          must('bank.unclear', {
            entryIds: [book.sqlite.prepare('SELECT entry_id FROM live_bank_mark').pluck().get() as number],
          }),
        says: 'Not all of these are marked: reload the page.',
      },
      {
        path: '/payout/bank',
        act: async (page) => {
          await page.getByLabel(/check 501/).check();
          await marked(page, '2099-01-01');
        },
        says: /is still to come: enter the day on the statement\.$/,
      },
      {
        path: '/payout/bank',
        act: async (page) => {
          await page.getByLabel(/check 501/).check();
          await marked(page, '2026-02-01');
        },
        says: /: the bank cannot have had it before\.$/,
      },
    ]));

  it('to card money that is more than was paid, and to an arrival or a check taken back twice', () =>
    refusedAll(bank, [
      {
        path: '/payout/bank',
        act: card('How much of it this is', '100.01'),
        says: 'Card money of this sale: 100.00 has not arrived yet. Enter no more than that.',
      },
      {
        path: '/payout/bank',
        act: card('Arrived', '100.01'),
        says: 'More arrived than was paid: enter at most 100.00, or more payments above.',
      },
      {
        path: '/payout/bank',
        first: ({ must }) => must('bank.arrive', { saleId: 1, method: 'card', amount: '40.00', arrived: '40.00' }),
        behind: ({ must }) => must('arrival.void', { arrivalId: 1, reason: 'another line' }),
        act: folded('Void arrival 1', VOID[0], VOID[1], 'Void the arrival'),
        says: 'This arrival was already voided.',
      },
      {
        path: '/payout/bank',
        first: ({ must }) => must('bank.deposit', { saleId: 1, paymentIds: [2, 3], cash: '' }),
        behind: ({ must }) => must('check.bounce', { paymentId: 2, fee: '', reason: 'no funds' }),
        act: async (page) => {
          await page.getByLabel('Which check came back').selectOption({ index: 1 });
          await typed('Why it came back', 'no funds', 'It came back')(page);
        },
        says: 'This payment was already voided.',
      },
      {
        path: '/payout/bank',
        act: folded(/Void deposit [23]/, VOID[0], VOID[1], 'Void the deposit'),
        says: 'A check of this deposit came back from the bank, so the deposit was made: leave it.',
      },
    ]));
});

function card(label: string, text: string) {
  return async (page: Page) => {
    const form = page.getByRole('form', { name: 'Card money' });
    await form.getByLabel(label, { exact: true }).fill(text);
    if (label !== 'Arrived') await form.getByLabel('Arrived', { exact: true }).fill('100.01');
    await press(page, 'Card money arrived');
  };
}

async function marked(page: Page, day: string) {
  await page.getByRole('form', { name: 'Outstanding' }).getByLabel('Day on the statement').fill(day);
  await press(page, 'On the statement');
}
