import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axe } from '#tests/screens/support/axe.ts';
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
} from '#tests/screens/support/block.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { scriptsBehind } from '#tests/screens/support/own-code.ts';
import { isSaid, refuseUnseen } from '#tests/screens/support/refused.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';

const house = testHouse((bookFile) => {
  // More than the forty that the Block's screen knows ahead.
  fillSellingBook(bookFile, { lots: 60 }).close();
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
    expect(await page.getByLabel('Lots', { exact: true }).inputValue()).toBe(`${lot}+`);
    for (const text of [String(lot + 2), '9.25']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
    await page.keyboard.type('10');
    await page
      .getByText(new RegExp(`Lot ${lot}: \\d+ × 9.25 = .*; Lot ${lot + 2}: \\d+ × 9.25 = .*; all \\d`))
      .waitFor();
    await page.keyboard.press('Enter');
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

describe('a choice that was refused for something that its form does not ask', () => {
  it('says why in the form, with what was typed', async () => {
    const page = await newPage(house.browser);
    await openBlock(page, house.server.hallUrl);
    const sentence = await refuseUnseen(page, 'outcome.choice', 'saleId');
    await page.getByRole('button', { name: 'Choice of lots' }).click();
    await untilCursorIn(page, 'Lots');
    await page.keyboard.press('Control+a');
    for (const text of ['50+51', '9.25', '10']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
    await page.getByRole('button', { name: 'Enter it again' }).click();
    const form = page.getByRole('form', { name: 'Choice of lots' });
    await form.getByRole('alert').filter({ hasText: sentence }).waitFor();
    expect(await form.getByLabel('Lots', { exact: true }).inputValue()).toBe('50+51');
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
    await block.getByText('buyer 11 up to 12.50').waitFor();
    expect(await axe(page)).toEqual([]);
    const takeBack = page.getByRole('button', { name: `Take back the bid of buyer 11 on lot ${lot}` });
    const sentence = await refuseUnseen(page, 'bid.retract', 'bidId');
    await takeBack.click();
    await isSaid(page, sentence);
    await page.unroute('**/api/commands/bid.retract');
    await takeBack.click();
    await page.getByText('No bid is left on a lot').waitFor();
    await block.getByText('buyer 11 up to 12.50').waitFor({ state: 'detached' });
  });
});

/**
 * Holds back what the server says of a lot until the gate is opened. To be set before the page is opened: a busy page
 * goes on sending past a gate that is set under it, for as long as it has not heard of it.
 */
async function lotsBehindGate(page: Page): Promise<{ readonly open: () => void }> {
  let open = () => {};
  const opened = new Promise<void>((resolve) => {
    open = resolve;
  });
  await page.route('**/api/views/lot?*', (route) => opened.then(() => route.continue()));
  return { open };
}

describe('a clerk who types faster than the machine', () => {
  it('has the number in the box and the price with the lot that comes up, whenever the server answers', async () => {
    const page = await newPage(house.browser);
    const answer = await lotsBehindGate(page);
    await openBlock(page, house.server.hallUrl);
    const slow = await page.context().newCDPSession(page);
    await slow.send('Emulation.setCPUThrottlingRate', { rate: 8 });
    const before = await lotUp(page);
    await page.keyboard.press('+');
    await page.keyboard.type('58');
    await page.keyboard.press('Enter');
    // A letter too many, taken out again, before anything of it is on the screen.
    await page.keyboard.type('13.255');
    await page.keyboard.press('Backspace');
    for (const text of ['', '10']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
    await page.getByText('Asking for lot 58.').waitFor();
    expect(await page.getByLabel('Lot number').inputValue()).toBe('58');
    answer.open();
    await page.locator('.last-ten li[data-lot="58"]').waitFor();
    await untilTyping(page, before);
    await untilSaved(page);
    expect(outcomesIn(house.bookFile).at(-1)).toMatchObject({ lotNumber: 58, priceCents: 1325, buyerNo: 10 });
  });

  it('is told what was not taken down, where the lot does not exist', async () => {
    const page = await newPage(house.browser);
    const answer = await lotsBehindGate(page);
    await openBlock(page, house.server.hallUrl);
    const called = outcomesIn(house.bookFile).length;
    await page.keyboard.press('+');
    await page.keyboard.type('958');
    await page.keyboard.press('Enter');
    await callLot(page, '13.25', '10');
    answer.open();
    await page.getByText('check the number on the ticket. Not taken down: 13.25 10.').waitFor();
    await page.keyboard.press('Escape');
    await untilTyping(page, await lotUp(page));
    expect(outcomesIn(house.bookFile)).toHaveLength(called);
  });

  it('opens what the server has not sent yet, and what is typed goes into it when it comes', async () => {
    const page = await newPage(house.browser, { expected: [/net::ERR_FAILED/] });
    const behind = scriptsBehind('(stations)/block').names;
    const isBehind = ({ pathname }: URL) => behind.some((name) => pathname.endsWith(name));
    await page.route(isBehind, (route) => route.abort());
    await openBlock(page, house.server.hallUrl);
    const lot = Number.parseInt(await lotUp(page), 10);
    await page.keyboard.press('+');
    await page.keyboard.type(String(lot + 2));
    await page.getByText('has not come from the server yet').waitFor();
    await page.unroute(isBehind);
    await page.getByLabel('Lot number').waitFor();
    await page.keyboard.press('Enter');
    await untilTyping(page, lot + 2);
    await untilSaved(page);
  });
});

describe('a Block whose line went down after it was opened', () => {
  it('opens all that a key or a button opens, and what is entered there waits for the line', async () => {
    const page = await newPage(house.browser, { expected: [/net::ERR_INTERNET_DISCONNECTED/] });
    await openBlock(page, house.server.hallUrl);
    await page.locator('[data-boxes=here]').waitFor();
    await page.context().setOffline(true);
    const lot = await lotUp(page);
    await callLot(page, '9.25', '10');
    await page.locator(`.last-ten li[data-lot="${lot}"]`).waitFor();
    const next = await lotUp(page);
    for (const [button, field] of [
      ['Choice of lots', 'Lots'],
      ['Note the under-bid', 'Under-bid'],
      [`Divide lot ${next}`, 'Pieces of each part'],
      ['Lot by number', 'Lot number'],
    ] as const) {
      await page.getByRole('button', { name: button }).click();
      await untilCursorIn(page, field);
      await page.keyboard.press('Escape');
      await untilTyping(page, next);
    }
    await page.keyboard.press('-');
    await untilCursorIn(page, 'Price');
    for (const text of ['9.75', '11', '2']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
    await page.locator(`.last-ten li[data-lot="${lot}"][data-state=waiting]`, { hasText: 'put right' }).waitFor();
    await page.getByRole('button', { name: 'Show the total' }).click();
    await page.getByRole('button', { name: 'Hide the total' }).waitFor();
    await page.getByLabel('Lots come up').selectOption('seller');
    await page.getByRole('button', { name: 'Use this order' }).click();
    await page.getByText('3 waiting').waitFor();
    await page.context().setOffline(false);
    await untilSaved(page);
    expect(outcomesIn(house.bookFile).slice(-2)).toMatchObject([
      { lotNumber: Number.parseInt(lot, 10), priceCents: 925, buyerNo: 10 },
      { lotNumber: Number.parseInt(lot, 10), priceCents: 975, buyerNo: 11 },
    ]);
  });
});
