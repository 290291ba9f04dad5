import { describe, expect, it } from 'vitest';
import { axe } from './support/axe.ts';
import {
  callLot,
  lotUp,
  openBlock,
  outcomesIn,
  timesIn,
  untilCursorIn,
  untilSaved,
  untilTyping,
  untilUp,
} from './support/block.ts';
import { newPage } from './support/browser.ts';
import { testHouse } from './support/house.ts';
import { fillSellingBook } from './support/selling-book.ts';

const house = testHouse((bookFile) => {
  fillSellingBook(bookFile, { lots: 20 }).close();
});

describe('a lot that waits in the outbox', () => {
  it('can be put right at once, and both outcomes reach the book in their order', async () => {
    const page = await newPage(house.browser, { expected: [/net::ERR_FAILED/, /Failed to load resource/] });
    await openBlock(page, house.server.hallUrl);
    const lot = Number.parseInt(await lotUp(page), 10);
    await page.route('**/api/commands/*', (route) => route.abort());
    await callLot(page, '9.25', '10');
    await untilTyping(page, lot + 1);
    await page.keyboard.press('-');
    await page.waitForFunction(() => (document.activeElement as HTMLInputElement | null)?.value === '9.25');
    for (const text of ['9.75', '11', '2']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
    await page.locator(`.last-ten li[data-lot="${lot}"][data-state=waiting]`, { hasText: 'put right' }).waitFor();
    await page.unroute('**/api/commands/*');
    await untilSaved(page);
    expect(outcomesIn(house.bookFile).filter(({ lotNumber }) => lotNumber === lot)).toMatchObject([
      { priceCents: 925, buyerNo: 10 },
      { priceCents: 975, buyerNo: 11 },
    ]);
  });
});

describe('what comes up between two lots', () => {
  it('is a choice of lots, a lot divided on the table, a lot moved before another, an under-bid', async () => {
    const page = await newPage(house.browser);
    await openBlock(page, house.server.hallUrl);
    const lot = Number.parseInt(await lotUp(page), 10);
    await page.getByRole('button', { name: 'Choice of lots' }).click();
    await untilCursorIn(page, 'Lots');
    for (const text of [`${lot}+${lot + 2}`, '9.25', '10']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
    await untilTyping(page, lot + 1);
    await untilSaved(page);
    expect(outcomesIn(house.bookFile).slice(-2)).toMatchObject([
      { lotNumber: lot, priceCents: 925, buyerNo: 10 },
      { lotNumber: lot + 2, priceCents: 925, buyerNo: 10 },
    ]);
    await page.getByRole('button', { name: 'Note the under-bid' }).click();
    await untilCursorIn(page, 'Under-bid');
    for (const text of ['9.00', '11', '']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
    await untilTyping(page, lot + 1);
    const pieces = Number.parseInt((await page.locator('.lot-up-goods strong').innerText()) ?? '', 10);
    await page.getByRole('button', { name: `Divide lot ${lot + 1}` }).click();
    await untilCursorIn(page, 'Pieces of each part');
    await page.keyboard.type(`${pieces - 1}+1`);
    await page.keyboard.press('Enter');
    await page.waitForFunction(
      (number) => document.querySelector('.lot-up-number')?.textContent?.trim().endsWith(`${number}A`),
      String(lot + 1),
    );
    await page.keyboard.press('+');
    await untilCursorIn(page, 'Lot number');
    await page.keyboard.type(String(lot + 5));
    await page.keyboard.press('Tab');
    await page.keyboard.type(`${lot + 1}A`);
    await page.keyboard.press('Enter');
    await untilUp(page, lot + 5);
    await untilSaved(page);
  });
});

describe('lots entered from paper', () => {
  it('keep the time that is written there, and the next one begins with it', async () => {
    const page = await newPage(house.browser);
    await openBlock(page, house.server.hallUrl);
    const lot = await lotUp(page);
    await page.getByRole('button', { name: 'Enter from paper' }).click();
    await callLot(page, '9.25', '10');
    await page.keyboard.type('0001');
    await page.keyboard.press('Enter');
    await page.waitForFunction((was) => !document.querySelector('.lot-up-number')?.textContent?.endsWith(was), lot);
    expect(await page.getByLabel('Time on the paper').inputValue()).toBe('0001');
    await untilSaved(page);
    const midnight = new Date();
    midnight.setHours(0, 1, 0, 0);
    expect(timesIn(house.bookFile).at(-1)).toBe(midnight.toISOString());
  });
});

describe('left bids', () => {
  it('are entered by buyer and lot, seen at the Block when the lot is up, and taken back', async () => {
    const [page, block] = [await newPage(house.browser), await newPage(house.browser)];
    await openBlock(block, house.server.hallUrl);
    const lot = await lotUp(block);
    await page.goto(`${house.server.hallUrl}/block/left`);
    await page.getByLabel('Buyer number').focus();
    for (const text of ['11', lot, '12.50']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
    await page.getByText(`Taken down: buyer 11 on lot ${lot} up to 12.50.`).waitFor();
    await block.getByText('12.50 buyer 11').waitFor();
    expect(await axe(page)).toEqual([]);
    await page.getByRole('button', { name: `Take back the bid of buyer 11 on lot ${lot}` }).click();
    await page.getByText('No bid is left on a lot').waitFor();
    await block.getByText('12.50 buyer 11').waitFor({ state: 'detached' });
  });
});
