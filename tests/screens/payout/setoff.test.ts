import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { openHall } from '#tests/support/hall.ts';

/** Ada is owed 88.75 as seller 1 and owes 44.73 as buyer 14; seller 2 waits for nobody; buyer 10 owes 111.83. */
const house = testHouse((file) => {
  const { must, book } = openHall({ file });
  must('seller.register', { saleId: 1, sellerNo: 2, partners: [{ personId: 3 }] });
  must('buyer.register', { saleId: 1, buyerNo: 14, personId: 1, cleared: true });
  must('lot.add', { saleId: 1, sellerNo: 1, goods: 'raccoon', count: '10' });
  must('lot.add', { saleId: 1, sellerNo: 2, goods: 'raccoon', count: '4' });
  must('outcome.record', { saleId: 1, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
  must('outcome.record', { saleId: 1, lotNo: '2', kind: 'sold', price: '10.00', buyerNo: 14 });
  must('sale.stage', { saleId: 1, stage: 'settling', reason: '' });
  must('settlement.issue', { saleId: 1, sellerNo: 1 });
  book.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });

async function at(path: string): Promise<Page> {
  const page = await newPage(house.browser);
  await page.goto(`${house.server.hallUrl}${path}`);
  await page.getByText('Saved').waitFor();
  return page;
}

function payments(): unknown[] {
  const book = openBook(house.bookFile);
  const rows = book.sqlite.prepare('SELECT method, direction, amount_cents FROM payment ORDER BY id').raw().all();
  book.close();
  return rows;
}

describe('somebody who sells and buys', () => {
  it('is named in the list, asked about before a check, and set off', async () => {
    const list = await at('/payout');
    await list.getByText('sheet 1 issued, still owes as buyer 14').waitFor();
    const page = await at('/payout/1');
    await button(page, 'Pay by check').click();
    await page.getByText('Seller number 1 still owes 44.73 as buyer 14.').waitFor();
    expect(await axe(page)).toEqual([]);
    await button(page, 'No, go back').click();
    expect(payments()).toEqual([]);

    await page.getByText('Ada Birch still owes 44.73 as buyer 14: set it off').click();
    const amount = page.getByLabel('Amount to set off');
    expect(await amount.inputValue()).toBe('44.73');
    await amount.fill('44.74');
    await button(page, 'Set off').click();
    await page.getByText('Buyer 14 owes 44.73: enter no more than that.').waitFor();
    expect(await amount.inputValue()).toBe('44.74');
    await amount.fill('44.73');
    await button(page, 'Set off').click();
    await page.getByText('44.02 to pay').waitFor();
    expect(payments()).toEqual([
      ['set_off', 'in', 4473],
      ['set_off', 'out', 4473],
    ]);
    await button(page, 'Pay by check').click();
    await page.getByText('even', { exact: true }).waitFor();
    const till = await at('/till/14');
    await till.getByText('against seller 1').waitFor();
  });
});

describe('a debt that nobody expects any more', () => {
  it('is written off beside the line of the balance that it keeps open, with the reason', async () => {
    const page = await at('/payout/balance');
    await page.getByText('Write off 111.83 of buyer 10').click();
    await button(page, 'Write off').click();
    await page.locator('.field-error').waitFor();
    await page.getByLabel('Why it is given up').fill('moved away');
    await button(page, 'Write off').click();
    await page.getByRole('cell', { name: 'Written off' }).waitFor();
    expect(await axe(page)).toEqual([]);
    expect(payments().at(-1)).toEqual(['written_off', 'in', 11183]);
  });
});
