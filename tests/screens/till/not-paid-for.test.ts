import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axe } from '#tests/screens/support/axe.ts';
import { outcomesIn } from '#tests/screens/support/block.ts';
import { newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { fillSellingBook, type SellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { tempFile } from '#tests/support/temp.ts';

/** Buyer 10 has lots 1, 3 and 4; lot 4 has left the hall. */
const bookFile = tempFile();
let filled: SellingBook;
let browser: Browser;
let server: Server;

beforeAll(async () => {
  filled = fillSellingBook(bookFile, { lots: 6 });
  for (const lotNo of ['1', '3', '4']) {
    filled.must('outcome.record', { saleId: 1, lotNo, kind: 'sold', price: '10.00', buyerNo: 10 });
  }
  filled.must('sale.handover', { saleId: 1, unpaid: true });
  filled.must('handover.record', { saleId: 1, buyerNo: 10, lots: ['4'], pieces: '12', takenBy: 'a driver' });
  server = await startServer({ bookFile });
  browser = await theBrowser();
});

afterAll(async () => {
  await server?.stop();
  filled?.close();
});

async function openForm(): Promise<Page> {
  const page = await newPage(browser);
  await page.goto(`${server.hallUrl}/till/10`);
  await page.locator('.saved-mark').waitFor();
  await page.locator('summary', { hasText: 'Not paid for' }).click();
  return page;
}

const form = (page: Page) => page.getByRole('form', { name: 'Not paid for' });
const owing = (page: Page) => page.locator('.sheet .figure-large').textContent();

describe('a buyer who never pays', () => {
  it('is relieved of one lot, which the page lists with why and what becomes of the fur', async () => {
    const page = await openForm();
    // 12 + 32 + 12 pieces at 10.00.
    expect(await owing(page)).toBe('560.00');
    const lots = await form(page).getByLabel('Lot').locator('option').allTextContents();
    expect(lots).toEqual(['1', '3', 'all 2 that are here']);
    await form(page).getByRole('button').click();
    await form(page).locator('.field-error').waitFor();
    await form(page).getByLabel('Why').fill('the check came back');
    await form(page).getByLabel('The fur').selectOption('association');
    expect(await axe(page)).toEqual([]);
    await form(page).getByRole('button').click();
    await page.getByText('Lot 1, Raccoon, at 10.00 each: kept by the association.').waitFor();
    expect(await owing(page)).toBe('440.00');
    expect(outcomesIn(bookFile).at(-1)).toMatchObject({ lotNumber: 1, kind: 'unpaid', buyerNo: 10 });
  });

  it('is relieved of all that are here, which may be offered again', async () => {
    const page = await openForm();
    await form(page).getByLabel('The fur').selectOption('again');
    await form(page).getByLabel('Why').fill('gone home');
    await form(page).getByRole('button').click();
    await expect.poll(() => owing(page)).toBe('120.00');
    expect(outcomesIn(bookFile).slice(-2)).toMatchObject([
      { lotNumber: 3, kind: 'unpaid' },
      { lotNumber: 3, kind: 'reopened' },
    ]);
    // What has left the hall is not offered.
    expect(await page.locator('summary', { hasText: 'Not paid for' }).count()).toBe(0);
  });
});
