/** What comes to the Till and is no buyer's number: money that is nobody's purchase, and somebody who has no number. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { callLot, openBlock } from '#tests/screens/support/block.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { countKeys } from '#tests/screens/support/keys.ts';
import { openHall } from '#tests/support/hall.ts';

const house = testHouse((bookFile) => {
  const { book, saleId, must } = openHall({ file: bookFile });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '2' });
  book.close();
});

async function open(path: string): Promise<Page> {
  const page = await newPage(house.browser, { viewport: { width: 1280, height: 800 } });
  await page.goto(`${house.server.hallUrl}${path}`);
  await page.locator('.saved-mark').waitFor();
  return page;
}

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });

function factsNow() {
  const book = openBook(house.bookFile);
  const facts = saleFacts(book, 1);
  book.close();
  return facts;
}

describe('other takings', () => {
  it('are a line each, cash unless said otherwise, with their sums by kind; one is voided with a reason', async () => {
    const page = await open('/till');
    await page.getByRole('link', { name: /^Raffle, door/ }).click();
    await page.getByRole('heading', { level: 1, name: 'Other takings' }).waitFor();
    const amount = page.getByLabel('Amount');
    await amount.and(page.locator(':focus')).waitFor();
    const count = await countKeys(page);
    await page.keyboard.type('41');
    await page.keyboard.press('Enter');
    await page.getByText('41.00 taken, raffle.').waitFor();
    expect([count.pressed(), count.pointed()]).toEqual([3, 0]);
    expect(await amount.inputValue()).toBe('');

    await page.getByLabel('What for').selectOption('Other');
    await page.getByLabel('By', { exact: true }).selectOption('Check');
    await amount.fill('30.00');
    await button(page, 'Record it').click();
    await page.getByText('Say in the note what this money is').waitFor();
    expect(await axe(page)).toEqual([]);
    await page.getByLabel('Note').fill('a hat, check 77');
    await button(page, 'Record it').click();
    await page.getByText('30.00 taken, other.').waitFor();
    const sums = page.getByRole('table', { name: /^By kind/ });
    await expect.poll(() => sums.textContent()).toMatch(/Raffle41\.00Other30\.00In all71\.00/);

    await page.getByText('Void 30.00').click();
    await page.getByLabel('Why it is voided').first().fill('it was a gift');
    await button(page, 'Void the taking').first().click();
    await page.getByText('voided: it was a gift').waitFor();
    await expect.poll(() => sums.textContent()).toMatch(/In all41\.00/);
    expect(factsNow().takings.map(({ kind, amountCents }) => [kind, amountCents])).toEqual([['raffle', 4100]]);
  });

  it('stand on the balance by kind, and send whoever pays dues to Intake', async () => {
    const balance = await open('/payout/balance');
    expect(await balance.getByRole('region', { name: 'Other takings' }).textContent()).toContain('Raffle41.00');
    const page = await open('/till/takings');
    await page.getByRole('link', { name: 'Take dues at Intake' }).click();
    await page.getByRole('heading', { level: 1, name: 'Check in' }).waitFor();
  });
});

describe('a walk-in', () => {
  it('has a number two keys from the Till’s page, is asked about at the Block, and pays the whole in one key', async () => {
    const page = await open('/till');
    await page.getByLabel('Buyer number').and(page.locator(':focus')).waitFor();
    const count = await countKeys(page);
    await page.keyboard.press('w');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { level: 1, name: 'Buyer 13, Walk-in buyer' }).waitFor();
    expect([count.pressed(), count.pointed()]).toEqual([2, 0]);
    expect(await page.locator('.buyer-standing').textContent()).toMatch(/not cleared.*walk-in.*No licence on record/);

    const block = await newPage(house.browser);
    await openBlock(block, house.server.hallUrl);
    await callLot(block, '20', '13');
    await block.getByText('Buyer 13 is not cleared to buy. Has the cashier agreed?').waitFor();
    await block.keyboard.press('Enter');

    // 2 × 20.00, 5 % premium, 6.5 % of 42.00: the form comes by itself, with all of it.
    await page.getByLabel('Cash given').and(page.locator(':focus')).waitFor();
    expect(await page.getByLabel('Amount taken').inputValue()).toBe('44.73');
    count.reset();
    await page.keyboard.press('Enter');
    await page.getByText('44.73 taken.').waitFor();
    expect(count.pressed()).toBe(1);
    await expect.poll(() => page.locator('.sheet .figure-large').textContent()).toBe('0.00');
  });

  it('shows a license where the rules of the table ask for one', async () => {
    const page = await open('/intake');
    await page.getByText('Rules of the table').first().click();
    await page.getByLabel('Nobody sells with an expired licence').check();
    await button(page, 'Keep the rules').click();
    await page.getByText('Kept.').waitFor();
    await page.goto(`${house.server.hallUrl}/till`);
    await page.locator('.saved-mark').waitFor();
    await button(page, 'Walk-in').click();
    await page.getByText('This sale asks for a license, and a walk-in has none on record').waitFor();
    expect(await axe(page)).toEqual([]);
    const form = page.getByRole('form', { name: 'Walk-in' });
    await form.getByLabel('Licence number').fill('FB-9');
    await button(page, 'Give the walk-in a number').click();
    await page.getByRole('heading', { level: 1, name: 'Buyer 14, Walk-in buyer' }).waitFor();
  });
});

describe('a guardian', () => {
  it('is typed among the particulars at Intake, and stands where the seller is paid', async () => {
    const page = await open('/intake/seller/1');
    await button(page, /^Particulars of Ada Birch/).click();
    await page.getByLabel('Pay to').fill('Dana Cole, guardian of Ada Birch');
    await button(page, 'Save the particulars').click();
    await page.getByLabel('Pay to').waitFor({ state: 'detached' });
    await page.goto(`${house.server.hallUrl}/payout/1`);
    await page.getByText('Paid to Dana Cole, guardian of Ada Birch').waitFor();
    await button(page, 'Issue the sheet').click();
    const payment = page.getByRole('region', { name: 'Payment' });
    await payment.getByText(', to be paid to Dana Cole, guardian of Ada Birch').waitFor();
  });
});
