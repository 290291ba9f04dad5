import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axe } from '#tests/screens/support/axe.ts';
import { callLot, openBlock, outcomesIn, untilSaved, untilTyping, untilUp } from '#tests/screens/support/block.ts';
import { newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { countKeys } from '#tests/screens/support/keys.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { tempFile } from '#tests/support/temp.ts';

const bookFile = tempFile();
let browser: Browser;
let server: Server;

beforeAll(async () => {
  fillSellingBook(bookFile, { lots: 6 }).close();
  server = await startServer({ bookFile });
  browser = await theBrowser();
});

afterAll(async () => {
  await server?.stop();
});

const newest = () => outcomesIn(bookFile).at(-1);

describe('a lot that its seller buys back', () => {
  it('takes at most seven keys for a price of four, says so before it is saved, and stands in the list', async () => {
    const page = await newPage(browser);
    await openBlock(page, server.hallUrl);
    const keys = await countKeys(page);
    await untilTyping(page, 1);
    await page.keyboard.type('9.25');
    await page.keyboard.press('Enter');
    await page.keyboard.type('0');
    expect(await page.locator('.call-amount').textContent()).toContain('The seller buys it back.');
    expect(await axe(page)).toEqual([]);
    await page.keyboard.press('Enter');
    await expect.poll(keys.pressed).toBe(7);
    await untilUp(page, 2);
    await untilSaved(page);
    expect(newest()).toEqual({ lotNumber: 1, kind: 'bought_back', priceCents: 925, buyerNo: null });
    await page.locator('.last-ten li[data-lot="1"]', { hasText: 'bought back at 9.25' }).waitFor();
    expect(await page.locator('.last-ten li[data-lot="1"] .money').textContent()).toBe('');
  });

  it('is taken down by the button that names the key, which wants a price', async () => {
    const page = await newPage(browser);
    await openBlock(page, server.hallUrl);
    await untilTyping(page, 2);
    await page.getByRole('button', { name: 'Seller buys it back' }).click();
    await page.locator('.field-error').waitFor();
    await page.keyboard.press('Escape');
    await page.getByLabel('Buyer number').fill('');
    await page.getByRole('textbox', { name: 'Price each' }).fill('8.00');
    await page.getByRole('button', { name: 'Seller buys it back' }).click();
    await untilUp(page, 3);
    await untilSaved(page);
    expect(newest()).toMatchObject({ lotNumber: 2, kind: 'bought_back', priceCents: 800 });
  });

  it('is offered where the seller’s own number is typed: 0 takes its place', async () => {
    const page = await newPage(browser);
    await openBlock(page, server.hallUrl);
    // Lot 3 is of seller 1, who is buyer 12.
    await untilTyping(page, 3);
    await callLot(page, '9.00', '12');
    const asked = await page.locator('form.call:not([hidden]) [role=alert]').first().textContent();
    expect(asked).toContain('enter 0 as the buyer');
    await page.keyboard.type('0');
    await page.keyboard.press('Enter');
    await untilUp(page, 4);
    await untilSaved(page);
    expect(newest()).toMatchObject({ lotNumber: 3, kind: 'bought_back', priceCents: 900, buyerNo: null });
  });

  it('is put right to a buyer, and back again', async () => {
    const page = await newPage(browser);
    await openBlock(page, server.hallUrl);
    for (const [buyer, kind] of [
      ['10', 'sold'],
      ['0', 'bought_back'],
    ] as const) {
      await untilTyping(page, 4);
      await page.keyboard.press('-');
      await page.waitForFunction(() => (document.activeElement as HTMLInputElement | null)?.value === '9.00');
      await page.keyboard.press('Enter');
      await page.keyboard.type(buyer);
      await page.keyboard.press('Enter');
      await page.keyboard.type('2');
      await page.keyboard.press('Enter');
      await page.locator('.last-ten li[data-lot="3"]', { hasText: 'put right: buyer number misheard' }).waitFor();
      await expect.poll(() => newest()).toMatchObject({ lotNumber: 3, kind, priceCents: 900 });
      await page.reload();
    }
  });

  it('is on the Board as bought back, without a price', async () => {
    const page = await newPage(browser);
    await page.goto(`${server.hallUrl}/board`);
    await page.getByText('bought back').first().waitFor();
    expect(await page.locator('main').textContent()).not.toContain('9.00');
  });
});
