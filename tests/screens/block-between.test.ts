// Long because every test of what happens between two lots needs the same half-sold sale.
import { randomUUID } from 'node:crypto';
import fc from 'fast-check';
import type { Page } from 'playwright-core';
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
import { REFUSALS, withoutStorage } from './support/no-storage.ts';
import { scriptsBehind } from './support/own-code.ts';
import { isSaid, refuseUnseen } from './support/refused.ts';
import { fillSellingBook } from './support/selling-book.ts';

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
    for (const text of [`${lot}+${lot + 2}`, '9.25']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
    await page.keyboard.type('10');
    await page.getByText(new RegExp(`Lot ${lot}: \\d+ × 9.25 = .*; Lot ${lot + 2}: \\d+ × 9.25 = `)).waitFor();
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
    await block.getByText('12.50 buyer 11').waitFor();
    expect(await axe(page)).toEqual([]);
    const takeBack = page.getByRole('button', { name: `Take back the bid of buyer 11 on lot ${lot}` });
    const sentence = await refuseUnseen(page, 'bid.retract', 'bidId');
    await takeBack.click();
    await isSaid(page, sentence);
    await page.unroute('**/api/commands/bid.retract');
    await takeBack.click();
    await page.getByText('No bid is left on a lot').waitFor();
    await block.getByText('12.50 buyer 11').waitFor({ state: 'detached' });
  });
});

/** Something that has to be waited for until the test has done what it does meanwhile. */
function gate(): { readonly opened: Promise<void>; readonly open: () => void } {
  let open = () => {};
  const opened = new Promise<void>((resolve) => {
    open = resolve;
  });
  return { opened, open };
}

describe('a clerk who types faster than the machine', () => {
  it('has the number in the box and the price with the lot that comes up, whenever the server answers', async () => {
    const page = await newPage(house.browser);
    await openBlock(page, house.server.hallUrl);
    const slow = await page.context().newCDPSession(page);
    await slow.send('Emulation.setCPUThrottlingRate', { rate: 8 });
    const [before, answer] = [await lotUp(page), gate()];
    await page.route('**/api/views/lot?*', (route) => answer.opened.then(() => route.continue()));
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
    await page.getByText('Asking the server for lot 58.').waitFor();
    expect(await page.getByLabel('Lot number').inputValue()).toBe('58');
    answer.open();
    await page.locator('.last-ten li[data-lot="58"]').waitFor();
    await untilTyping(page, before);
    await untilSaved(page);
    expect(outcomesIn(house.bookFile).at(-1)).toMatchObject({ lotNumber: 58, priceCents: 1325, buyerNo: 10 });
  });

  it('is told what was not taken down, where the lot does not exist', async () => {
    const page = await newPage(house.browser);
    await openBlock(page, house.server.hallUrl);
    const [called, answer] = [outcomesIn(house.bookFile).length, gate()];
    await page.route('**/api/views/lot?*', (route) => answer.opened.then(() => route.continue()));
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

const priceBox = (page: Page) => page.locator('[name=price]');

/** Waits until another lot is up and nothing is typed for it; gives its number. */
async function untilNext(page: Page, lot: string): Promise<string> {
  await page.waitForFunction((was) => {
    const up = document.querySelector('.lot-up-number')?.textContent?.replace(/\D+/, '').trim();
    return up !== was && document.querySelector<HTMLInputElement>('[name=price]')?.value === '';
  }, lot);
  return lotUp(page);
}

describe.each(REFUSALS)('a browser whose storage fails: %s', (refusal) => {
  it('has a lot in the book all the same, or says that it is not saved and gives it back', async () => {
    const page = await newPage(house.browser, { expected: [/net::ERR_FAILED/] });
    await withoutStorage(page, refusal);
    await openBlock(page, house.server.hallUrl);
    const [lot, before] = [await lotUp(page), outcomesIn(house.bookFile).length];
    await callLot(page, '9.25', '10');
    const next = await untilNext(page, lot);
    await untilSaved(page);
    expect(outcomesIn(house.bookFile).slice(before)).toMatchObject([{ priceCents: 925, buyerNo: 10 }]);

    await page.route('**/api/commands/*', (route) => route.abort());
    await callLot(page, '9.75', '11');
    await page.getByText('This browser could not keep the entry. It is being sent directly').waitFor();
    expect(await page.locator('.saved-mark [data-tone=done]').count()).toBe(0);
    await page.locator('form.call').getByText('Not saved. The entry is still in the form').waitFor();
    expect(await lotUp(page)).toBe(next);
    expect(await priceBox(page).inputValue()).toBe('9.75');
    expect(await page.getByLabel('Buyer number').inputValue()).toBe('11');
    await page.locator('.saved-mark').getByText('Not saved').waitFor();

    await page.unroute('**/api/commands/*');
    await page.getByLabel('Buyer number').focus();
    await page.keyboard.press('Enter');
    await untilNext(page, next);
    await untilSaved(page);
    expect(outcomesIn(house.bookFile).slice(before + 1)).toMatchObject([{ priceCents: 975, buyerNo: 11 }]);
  });
});

describe('a lease that a clock has given which was set back since', () => {
  it('keeps no entry waiting', async () => {
    const page = await newPage(house.browser);
    await openBlock(page, house.server.hallUrl);
    await page.evaluate(
      () =>
        new Promise<void>((resolve) => {
          indexedDB.open('peltry-outbox').onsuccess = ({ target }) => {
            const opened = (target as IDBOpenDBRequest).result;
            const writing = opened.transaction('lease', 'readwrite');
            writing.objectStore('lease').put({ holder: 'another tab', until: Date.now() + 86_400_000 }, 'sender');
            writing.oncomplete = () => {
              opened.close();
              resolve();
            };
          };
        }),
    );
    const before = outcomesIn(house.bookFile).length;
    await callLot(page, '9.25', '10');
    await untilSaved(page);
    expect(outcomesIn(house.bookFile).slice(before)).toMatchObject([{ priceCents: 925, buyerNo: 10 }]);
  });
});

describe('a key that cannot act', () => {
  const status = (page: Page) => page.locator('form.call [role=status]');

  it.each(['+', '-', '/', '*'])('%s behind a typed price says so, and nothing more is typed or sent', async (key) => {
    const page = await newPage(house.browser);
    await openBlock(page, house.server.hallUrl);
    const [lot, before] = [await lotUp(page), outcomesIn(house.bookFile).length];
    await page.keyboard.type(`3${key}150`);
    await page.keyboard.press('Enter');
    const sign = key === '-' ? '−' : key;
    await status(page).getByText(`Clear what is typed first, then press ${sign}.`).waitFor();
    expect(await priceBox(page).inputValue()).toBe('3');
    await page.keyboard.type('10');
    await page.keyboard.press('Enter');
    expect([await lotUp(page), await page.getByLabel('Buyer number').inputValue()]).toEqual([lot, '']);
    // Escape goes back to the price, which is typed over.
    await page.keyboard.press('Escape');
    await callLot(page, '13.25', '10');
    await untilNext(page, lot);
    await untilSaved(page);
    expect(outcomesIn(house.bookFile).slice(before)).toMatchObject([{ priceCents: 1325, buyerNo: 10 }]);
  });

  it('− behind a correction that is begun goes to no other lot and types nothing', async () => {
    const page = await newPage(house.browser);
    await openBlock(page, house.server.hallUrl);
    const lot = await lotUp(page);
    await callLot(page, '9.25', '10');
    await untilNext(page, lot);
    await untilSaved(page);
    const before = outcomesIn(house.bookFile).length;
    await page.keyboard.press('-');
    await untilCursorIn(page, 'Price');
    const heading = await page.getByRole('heading', { name: /^Put lot/ }).textContent();
    await page.keyboard.type('14-50');
    await page.getByText('first, then press −. Esc keeps what is typed.').waitFor();
    for (const text of ['', '11', '1']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
    expect(await page.getByLabel('Price', { exact: true }).inputValue()).toBe('14');
    expect(await page.getByRole('heading', { name: /^Put lot/ }).textContent()).toBe(heading);
    expect(outcomesIn(house.bookFile)).toHaveLength(before);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Enter');
    await untilCursorIn(page, 'Buyer number');
  });

  it.each(['+150', '3+150', '3a', '1-2'])('leaves %s as it was pasted, and it is refused', async (pasted) => {
    const page = await newPage(house.browser);
    await openBlock(page, house.server.hallUrl);
    await page.keyboard.insertText(pasted);
    await page.keyboard.press('Enter');
    await page.locator('.call-fields .field-error').waitFor();
    expect(await priceBox(page).inputValue()).toBe(pasted);
    expect(await page.evaluate(() => document.activeElement?.getAttribute('name'))).toBe('price');
  });

  it('whatever the keys: the price that goes on is what was typed, or nothing goes on and it is said why', async () => {
    const page = await newPage(house.browser);
    await openBlock(page, house.server.hallUrl);
    const keys = fc.constantFrom('1', '2', '.', '+', '-', '/', '*', 'Backspace');
    // A first figure, so that no key acts on an empty box before.
    for (const typed of fc.sample(fc.array(keys, { minLength: 1, maxLength: 7 }), { numRuns: 40, seed: 1984 })) {
      const all = ['3', '5', '2', '5', '1', '3', '7', ...typed];
      for (const key of all) await page.keyboard.press(key);
      await page.keyboard.press('Enter');
      const price = await priceBox(page).inputValue();
      const wentOn = (await page.evaluate(() => document.activeElement?.getAttribute('name'))) === 'buyer';
      const signs = all.some((key) => '+-/*'.includes(key));
      const said = await page.locator('form.call .field-error').allInnerTexts();
      if (wentOn) expect([price, signs], all.join(' ')).toEqual([typedWith(all), false]);
      else expect(said.join(''), all.join(' ')).toMatch(/\.$/);
      for (const key of ['Escape', 'Escape', 'Backspace']) await page.keyboard.press(key);
      await page.waitForFunction(() => (document.activeElement as HTMLInputElement | null)?.value === '');
    }
  });
});

/** What stands in a box after these keys, none of which is a sign. */
function typedWith(keys: readonly string[]): string {
  return keys.reduce((text, key) => (key === 'Backspace' ? text.slice(0, -1) : text + key), '');
}

describe('a sale that is being settled', () => {
  it('shows at the Block why no lot is sold, and a lot can be put right by its number', async () => {
    const page = await newPage(house.browser);
    await openBlock(page, house.server.hallUrl);
    const sold = outcomesIn(house.bookFile).findLast(({ kind }) => kind === 'sold')?.lotNumber;
    const open = await lotUp(page);
    await page.keyboard.type('13.25');
    await giveOffice('sale.stage', { saleId: 1, stage: 'settling', reason: '' });
    await page.getByText('The bidding has ended. To sell another lot, go back to selling under Sale.').waitFor();
    await page.getByText(`Not saved: lot ${open}, price 13.25`).waitFor();
    expect(await priceBox(page).count()).toBe(0);
    expect(await axe(page)).toEqual([]);
    const byNumber = async (lot: string) => {
      await page.getByRole('button', { name: 'Lot by number' }).click();
      await untilCursorIn(page, 'Lot number');
      await page.keyboard.type(lot);
      await page.keyboard.press('Enter');
    };
    await byNumber(open);
    await page.getByText('The bidding has ended. To sell this lot, go back to selling under Sale.').waitFor();
    await page.keyboard.press('Escape');
    await byNumber(String(sold));
    await untilCursorIn(page, 'Price');
    for (const text of ['10.25', '11', '2']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
    await untilSaved(page);
    expect(outcomesIn(house.bookFile).at(-1)).toMatchObject({ lotNumber: sold, priceCents: 1025, buyerNo: 11 });
    await giveOffice('sale.stage', { saleId: 1, stage: 'selling', reason: 'one lot was forgotten' });
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('[name=price]')?.value === '13.25');
  });
});

async function giveOffice(command: string, input: object): Promise<void> {
  const { url } = house.server;
  const headers = { 'content-type': 'application/json', 'idempotency-key': randomUUID(), 'x-station': 'office' };
  const answer = await fetch(`${url}/api/commands/${command}`, {
    method: 'POST',
    headers: { ...headers, 'x-worker': 'Ada', origin: url },
    body: JSON.stringify(input),
  });
  expect(answer.status, await answer.text()).toBe(200);
}
