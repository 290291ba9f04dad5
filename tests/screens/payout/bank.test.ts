import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { paperBehind } from '#tests/screens/support/papers.ts';
import { press } from '#tests/screens/support/refused.ts';
import { hallOf } from '#tests/support/hall.ts';
import { closeSale, paidHall } from '#tests/support/sales.ts';

/** Two checks taken in and 30.00 in cash, checks 501 and 502 written. One test follows the other. */
const house = testHouse((bookFile) => paidHall(bookFile).book.close());

async function at(path: string): Promise<Page> {
  const page = await newPage(house.browser);
  await page.goto(`${house.server.hallUrl}${path}`);
  return page;
}

describe('the page of the bank', () => {
  it('banks what is ticked, prints the slip, and leaves the rest waiting', async () => {
    const page = await at('/payout/bank');
    await page.getByText('2 checks: 335.48').waitFor();
    expect(await page.getByLabel('Cash', { exact: true }).inputValue()).toBe('30.00');
    await page.getByLabel(/^223\.65 of Cal Dunn/).uncheck();
    await page.getByText('1 check: 111.83').waitFor();
    expect(await axe(page)).toEqual([]);
    await press(page, 'Banked');
    await page.getByText('141.83 with 1 check').waitFor();
    expect(await paperBehind(page, 'Print slip 1')).toMatch(/Deposit\s+141\.83/);
    expect(await page.getByLabel(/^111\.83 of Bea Cole/).count()).toBe(0);
    await page.getByLabel('Day', { exact: true }).fill('2099-01-01');
    await press(page, 'Banked');
    await page.getByText('is still to come').waitFor();
  });

  it('holds the account against the statement, and says the difference in words', async () => {
    const page = await at('/payout/bank');
    for (const words of [/check 501/, /Deposit 1/]) await page.getByLabel(words).check();
    await press(page, 'On the statement');
    await page.getByText('On the statement: 2', { exact: true }).waitFor();
    await page.getByLabel('Balance on the statement').fill('50.00');
    await press(page, 'Compare');
    // 141.83 − 88.75 = 53.08 is what is cleared.
    await page.getByText(/The statement has 3\.08 less than the book/).waitFor();
    expect(await page.getByRole('row', { name: /should say/ }).textContent()).toContain('53.08');
    expect(await page.getByLabel(/check 502/).count()).toBe(1);
    await page.getByText(/By the book the account is [\d.]+ below zero/).waitFor();
    await press(page, 'Mark all up to this day');
    const all = page.getByText(/^Mark all 1 line up to .*, -182\.75 in all\?$/);
    await all.waitFor();
    // It was asked of that day.
    await page.getByLabel('Day on the statement').fill('2099-01-01');
    await all.waitFor({ state: 'detached' });
    await page.getByLabel('Balance on the statement').fill('50.0.0');
    await press(page, 'Compare');
    await page.locator('[data-kind="stop"]').waitFor();
  });

  it('clears card money with its fee, once it was asked, and prints the reconciliation', async () => {
    const book = openBook(house.bookFile);
    const taking = { saleId: 1, kind: 'raffle', method: 'card', amount: '100.00', note: '' } as const;
    hallOf(book, 1).must('taking.record', taking, 'till');
    book.close();
    const page = await at('/payout/bank');
    const card = page.getByRole('form', { name: 'Card money' });
    expect(await card.getByLabel('How much of it this is').inputValue()).toBe('100.00');
    await card.getByLabel('Arrived', { exact: true }).fill('97.10');
    await press(page, 'Card money arrived');
    await page.getByText(/2\.90 of 100\.00 did not arrive/).waitFor();
    expect(await axe(page)).toEqual([]);
    await press(page, 'Yes, book the fee');
    await page.getByText('100.00, fee 2.90').waitFor();
    await page.getByText('On the statement: 3', { exact: true }).waitFor();
    // 53.08 + 97.10.
    expect(await page.getByRole('row', { name: /should say/ }).textContent()).toContain('150.18');
    expect(await paperBehind(page, 'Print the reconciliation')).toMatch(/Balance by the book\s+-32\.57/);
  });

  it('takes back a lost check and a returned one after the closing, and lists who is owed and who owes', async () => {
    const book = openBook(house.bookFile);
    closeSale(hallOf(book, 1), 1);
    book.close();
    const page = await at('/payout/checks');
    await page.getByLabel('Which check').selectOption({ label: '502, Eve Frost' });
    expect(await page.getByLabel('What happened').locator('option').allTextContents()).toEqual([
      ...['It was lost', 'The bank stopped it'],
    ]);
    await page.getByLabel('Why it is void').fill('never came');
    await press(page, 'Void it only');
    await page.getByText(/lost: never came/).waitFor();
    await page.goto(`${house.server.hallUrl}/payout/bank`);
    await page.getByLabel('Which check came back').selectOption({ index: 1 });
    await page.getByLabel('Fee charged for it').fill('25.00');
    await page.getByLabel('Why it came back').fill('no funds');
    await press(page, 'It came back');
    await page.getByText('Bea Cole owes it again.').waitFor();
    await page.goto(`${house.server.hallUrl}/payout/balance`);
    const since = page.getByRole('region', { name: 'Since the closing', exact: true });
    expect(await since.textContent()).toContain('Came back: Paid in by buyer 10, check 7001');
    expect(await axe(page)).toEqual([]);
    // 111.83 + 25.00.
    await page.getByText('buyer 10 owes 136.83').waitFor();
    await page.getByRole('link', { name: 'seller 2: 182.75 to pay' }).click();
    // The next behind the newest, and not one that is used.
    expect(await page.getByLabel('Number on the check').inputValue()).toBe('503');
    await page.getByLabel('Number on the check').fill('502');
    await press(page, 'Pay by check');
    await page.locator('.field[data-wrong]').getByText('Check 502 is written already: enter another number.').waitFor();
    await page.getByLabel('Number on the check').fill('600');
    await press(page, 'Pay by check');
    await page.getByText('Check 600, 182.75 to Eve Frost').waitFor();
    await page.goto(`${house.server.hallUrl}/till/10`);
    await page.getByText('Returned-check fee 7001').first().waitFor();
  });
});
