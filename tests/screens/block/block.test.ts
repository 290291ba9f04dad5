import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeInThemes } from '#tests/screens/support/axe.ts';
import {
  callLot,
  lotUp,
  openBlock,
  outcomesIn,
  untilCursorIn,
  untilSaved,
  untilTyping,
  untilUp,
} from '#tests/screens/support/block.ts';
import { newPage, pageOfAll, theBrowser } from '#tests/screens/support/browser.ts';
import { countKeys } from '#tests/screens/support/keys.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { tempFile } from '#tests/support/temp.ts';

const bookFile = tempFile();
let browser: Browser;
let server: Server;

beforeAll(async () => {
  fillSellingBook(bookFile, { lots: 210, earlier: ['8.00', '14.50'] }).close();
  server = await startServer({ bookFile });
  browser = await theBrowser();
});

afterAll(async () => {
  await server?.stop();
});

const newest = () => outcomesIn(bookFile).at(-1);
const alertOf = (page: Page) => page.locator('form.call:not([hidden]) [role=alert]').first().innerText();

describe('a lot at the Block', () => {
  it('takes at most nine keys a lot, a hundred in a row, and no pointer', async () => {
    const page = await newPage(browser);
    await openBlock(page, server.hallUrl);
    const keys = await countKeys(page);
    for (let lot = 1; lot <= 100; lot += 1) {
      // Typed faster than any clerk, the entries outrun the book; a clerk waits for the next lot to be up.
      await untilTyping(page, lot);
      keys.reset();
      await callLot(page, '13.25', '10');
      await expect.poll(keys.pressed).toBe(9);
    }
    expect(keys.pointed()).toBe(0);
    await untilSaved(page);
    expect(outcomesIn(bookFile).map(({ lotNumber }) => lotNumber)).toEqual(
      Array.from({ length: 100 }, (_, at) => at + 1),
    );
  });

  it('shows what the price comes to before anything is saved', async () => {
    const page = await newPage(browser);
    await openBlock(page, server.hallUrl);
    await untilUp(page, 101);
    await page.keyboard.type('13.25');
    expect(await page.locator('.call-amount').innerText()).toContain('5 × 13.25 = 66.25');
    expect(outcomesIn(bookFile)).toHaveLength(100);
  });

  it('is put right with at most twelve keys, and both outcomes are kept', async () => {
    const page = await newPage(browser);
    await openBlock(page, server.hallUrl);
    const keys = await countKeys(page);
    await page.keyboard.press('-');
    await page.waitForFunction(() => (document.activeElement as HTMLInputElement | null)?.value === '13.25');
    await page.keyboard.type('14.50');
    await page.keyboard.press('Enter');
    await page.keyboard.type('11');
    await page.keyboard.press('Enter');
    await page.keyboard.type('1');
    await page.keyboard.press('Enter');
    await page.locator('.last-ten li[data-lot="100"]', { hasText: 'put right: price misheard' }).waitFor();
    await expect.poll(keys.pressed).toBeLessThanOrEqual(12);
    await untilSaved(page);
    expect(outcomesIn(bookFile).filter(({ lotNumber }) => lotNumber === 100)).toMatchObject([
      { priceCents: 1325, buyerNo: 10 },
      { priceCents: 1450, buyerNo: 11 },
    ]);
  });

  it('is a no-sale by one key, skipped by one key, and put up again by its number', async () => {
    const page = await newPage(browser);
    await openBlock(page, server.hallUrl);
    await untilUp(page, 101);
    await page.keyboard.press('*');
    await untilUp(page, 102);
    await page.keyboard.press('/');
    await untilUp(page, 103);
    await page.keyboard.press('+');
    await untilCursorIn(page, 'Lot number');
    await page.keyboard.type('102');
    await page.keyboard.press('Enter');
    await untilUp(page, 102);
    await untilSaved(page);
    expect(newest()).toMatchObject({ lotNumber: 101, kind: 'passed' });
    await page.reload();
    await untilUp(page, 102);
  });
});

describe('a question before an unusual outcome', () => {
  const clerk = pageOfAll(
    () => browser,
    (page) => openBlock(page, server.hallUrl),
  );

  it('is asked once in place; Escape keeps what was typed, Enter says yes', async () => {
    const page = await clerk();
    await untilTyping(page, 102);
    await callLot(page, '450', '10');
    expect(await alertOf(page)).toContain('far from earlier prices');
    await page.keyboard.press('Escape');
    expect(await page.getByLabel('Price each').inputValue()).toBe('450');
    expect(await page.getByLabel('Buyer number').inputValue()).toBe('10');
    expect(await lotUp(page)).toBe('102');
    await page.keyboard.type('9.30');
    await page.keyboard.press('Enter');
    // The number that stands there is marked: typed once more it is not put behind itself.
    await page.keyboard.type('10');
    await page.keyboard.press('Enter');
    expect(await alertOf(page)).toContain('Prices go by 0.25');
    expect(outcomesIn(bookFile).filter(({ lotNumber }) => lotNumber === 102)).toEqual([]);
    await page.keyboard.press('Enter');
    await untilUp(page, 103);
    await untilSaved(page);
    expect(newest()).toMatchObject({ lotNumber: 102, priceCents: 930 });
  });

  it.each([
    [103, '5', '10', "The seller's minimum is 8.00"],
    [104, '5.25', '20', 'Buyer 20 is not cleared'],
    [105, '5.25', '12', 'Buyer 12 is a seller of this lot'],
  ] as const)('is asked of lot %i for %s to buyer %s', async (...[lot, price, buyer, words]) => {
    const page = await clerk();
    await untilTyping(page, lot);
    await callLot(page, price, buyer);
    expect(await alertOf(page)).toContain(words);
    await page.keyboard.press('Enter');
    await untilUp(page, lot + 1);
    await untilSaved(page);
    expect(newest()).toMatchObject({ lotNumber: lot, kind: 'sold' });
  });
});

describe('what cannot be taken down', () => {
  const clerk = pageOfAll(
    () => browser,
    (page) => openBlock(page, server.hallUrl),
  );

  it.each(['12,5', '1e3', 'NaN', '0.005', '0', '12..'])('refuses the price %s and keeps it', async (price) => {
    const page = await clerk();
    await page.keyboard.type(price);
    await page.keyboard.press('Enter');
    await page.locator('.field-error').waitFor();
    expect(await page.locator('.field-error').innerText()).toMatch(/\.$/);
    expect(await page.getByLabel('Price each').inputValue()).toBe(price);
    await page.getByLabel('Price each').fill('');
    await page.locator('.field-error').waitFor({ state: 'detached' });
  });

  it('tells an unknown buyer number in place', async () => {
    const page = await clerk();
    await callLot(page, '9.25', '99');
    expect(await page.locator('.field-error').innerText()).toContain('There is no buyer number 99');
  });
});

describe('two clerks', () => {
  it('at one lot: one wins, the other is told what, who and when, with what was typed', async () => {
    const [one, other] = [await newPage(browser), await newPage(browser)];
    for (const page of [one, other]) {
      await openBlock(page, server.hallUrl);
      await untilUp(page, 106);
    }
    await other.keyboard.type('9.75');
    await callLot(one, '9.25', '10');
    await untilSaved(one);
    await other.locator('.notice', { hasText: 'taken down elsewhere' }).waitFor();
    expect(await lotUp(other)).toBe('106');
    await other.keyboard.press('Enter');
    await other.keyboard.type('11');
    await other.keyboard.press('Enter');
    const told = other.locator('.notice', { hasText: 'was refused' });
    await told.waitFor();
    expect(await told.innerText()).toMatch(
      /already sold to buyer 10 at 9\.25\. Taken down by .+ at \d+:\d\d [AP]M UTC/,
    );
    expect(await told.innerText()).toContain('9.75 to buyer 11');
    await other.getByRole('button', { name: 'I have read it' }).click();
    await expect.poll(() => told.count()).toBe(0);
    expect(outcomesIn(bookFile).filter(({ lotNumber }) => lotNumber === 106)).toHaveLength(1);
  });
});

describe('six tabs of one browser', () => {
  it('all hear what happens, over one stream, and share one queue', async () => {
    const first = await newPage(browser);
    await openBlock(first, server.hallUrl);
    await untilUp(first, 107);
    const tabs = [first];
    while (tabs.length < 6) tabs.push(await first.context().newPage());
    for (const tab of tabs.slice(1)) await openBlock(tab, server.hallUrl);
    await callLot(first, '9.25', '10');
    for (const tab of tabs) await untilUp(tab, 108);
    await callLot(tabs[5] ?? first, '9.50', '11');
    for (const tab of tabs) await untilUp(tab, 109);
    for (const tab of tabs) await untilSaved(tab);
    expect(outcomesIn(bookFile).slice(-2)).toMatchObject([{ lotNumber: 107 }, { lotNumber: 108 }]);
  });
});

describe('six tabs of a browser without shared workers', () => {
  it('hear what happens all the same, by asking, and none of them keeps the others waiting', async () => {
    const first = await newPage(browser);
    await first.context().addInitScript(() => Reflect.deleteProperty(window, 'SharedWorker'));
    const streams: string[] = [];
    first.context().on('request', (request) => request.url().endsWith('/api/live') && streams.push(request.url()));
    await openBlock(first, server.hallUrl);
    const boards = [];
    while (boards.length < 5) boards.push(await first.context().newPage());
    for (const board of boards) await board.goto(`${server.hallUrl}/board`);
    const lot = Number(await lotUp(first));
    await callLot(first, '9.75', '10');
    for (const board of boards) await board.locator('[data-figure=lot]', { hasText: String(lot + 1) }).waitFor();
    await untilTyping(first, lot + 1);
    await untilSaved(first);
    expect(newest()).toMatchObject({ lotNumber: lot, priceCents: 975, buyerNo: 10 });
    expect(streams).toEqual([]);
  });
});

describe('a Block that hears nothing of the book for long', () => {
  it('says so after the lots it knows of, and asks whether what was typed then is for the next one', async () => {
    const page = await newPage(browser, { expected: [/net::ERR_FAILED/] });
    await openBlock(page, server.hallUrl);
    await page.route('**/api/views/block*', (route) => route.abort());
    const first = Number(await lotUp(page));
    for (let lot = first; lot < first + 40; lot += 1) await callLot(page, '13.25', '10');
    await page.getByText('Every lot that this screen knows of is called.').waitFor();
    await untilSaved(page);
    await page.keyboard.type('13.25');
    await page.unroute('**/api/views/block*');
    const asked = page.getByText(`This was typed while no lot was up. Is it for lot ${first + 40}?`);
    await asked.waitFor();
    // No: it is taken out. Typed anew for the lot that is up, nothing is asked.
    await page.keyboard.press('Escape');
    await untilTyping(page, first + 40);
    await callLot(page, '13.25', '10');
    await untilTyping(page, first + 41);
    await untilSaved(page);
    expect(newest()).toMatchObject({ lotNumber: first + 40, priceCents: 1325, buyerNo: 10 });
  });
});

describe('the Block', () => {
  it('has nothing that axe-core finds in any theme, and no sideways scroll, while it asks', async () => {
    const page = await newPage(browser, { viewport: { width: 375, height: 800 } });
    await openBlock(page, server.hallUrl);
    await callLot(page, '9.30', '20');
    await page.locator('.call .notice').waitFor();
    expect(await axeInThemes(page)).toEqual([]);
    for (const width of [320, 375, 820, 1366]) {
      await page.setViewportSize({ width, height: 800 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    }
  });
});
