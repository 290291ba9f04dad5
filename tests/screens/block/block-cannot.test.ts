/** What the Block does where it cannot do what it is told: the browser keeps nothing, a key cannot act, nothing is sold. */
import { randomUUID } from 'node:crypto';
import fc from 'fast-check';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axe } from '#tests/screens/support/axe.ts';
import {
  callLot,
  lotUp,
  openBlock,
  outcomesIn,
  untilCursorIn,
  untilSaved,
  untilTyping,
} from '#tests/screens/support/block.ts';
import { newPage, pageOfAll } from '#tests/screens/support/browser.ts';
import { REFUSALS, withoutStorage } from '#tests/screens/support/failing.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';

const house = testHouse((bookFile) => {
  fillSellingBook(bookFile, { lots: 40 }).close();
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
    await page.locator('form.call').getByText('Not saved: the server does not answer.').waitFor();
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

describe('a clock that jumps by a day, behind another tab that was closed while it sent', () => {
  it.each([-1, 1])('%i keeps no entry waiting', async (days) => {
    const page = await newPage(house.browser, { expected: [/net::ERR_FAILED/] });
    await openBlock(page, house.server.hallUrl);
    await page.route('**/api/commands/*', (route) => route.abort());
    const before = outcomesIn(house.bookFile).length;
    await callLot(page, '9.25', '10');
    await page.locator('.saved-mark').getByText('no answer from the server yet').waitFor();
    await page.evaluate(
      (jump) =>
        new Promise<void>((resolve) => {
          const now = Date.now;
          Date.now = () => now() + jump;
          indexedDB.open('peltry-outbox').onsuccess = ({ target }) => {
            const opened = (target as IDBOpenDBRequest).result;
            const writing = opened.transaction('lease', 'readwrite');
            writing.objectStore('lease').put({ holder: 'another tab', beat: 12 }, 'sender');
            writing.oncomplete = () => {
              opened.close();
              resolve();
            };
          };
        }),
      days * 86_400_000,
    );
    await page.unroute('**/api/commands/*');
    await untilSaved(page);
    expect(outcomesIn(house.bookFile).slice(before)).toMatchObject([{ priceCents: 925, buyerNo: 10 }]);
  });
});

describe('a key that cannot act', () => {
  const status = (page: Page) => page.locator('form.call [role=status]');
  const clerk = pageOfAll(
    () => house.browser,
    (page) => openBlock(page, house.server.hallUrl),
  );

  it.each(['+', '-', '/', '*'])('%s behind a typed price says so, and nothing more is typed or sent', async (key) => {
    const page = await clerk();
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
    const next = await untilNext(page, lot);
    await untilSaved(page);
    expect(outcomesIn(house.bookFile).slice(before)).toMatchObject([{ priceCents: 1325, buyerNo: 10 }]);
    await untilTyping(page, next);
  });

  it('− behind a correction that is begun goes to no other lot and types nothing', async () => {
    const page = await clerk();
    const lot = await lotUp(page);
    await callLot(page, '9.25', '10');
    await untilNext(page, lot);
    await untilSaved(page);
    const before = outcomesIn(house.bookFile).length;
    await page.keyboard.press('-');
    await untilCursorIn(page, 'Price');
    const heading = await page.getByRole('heading', { name: /^Put lot/ }).textContent();
    await page.keyboard.type('14-50');
    await page.getByText(/^Save lot .* first. Esc keeps it.$/).waitFor();
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
    // The tests behind this one begin at an empty Block.
    await openBlock(page, house.server.hallUrl);
  });

  it.each(['+150', '3+150', '3a', '1-2'])('leaves %s as it was pasted, and it is refused', async (pasted) => {
    const page = await clerk();
    await page.keyboard.insertText(pasted);
    await page.keyboard.press('Enter');
    await page.locator('.call-fields .field-error').waitFor();
    expect(await priceBox(page).inputValue()).toBe(pasted);
    expect(await page.evaluate(() => document.activeElement?.getAttribute('name'))).toBe('price');
    await priceBox(page).fill('');
    await page.locator('.call-fields .field-error').waitFor({ state: 'detached' });
  });

  it('whatever the keys: the price that goes on is what was typed, or nothing goes on and it is said why', async () => {
    const page = await clerk();
    const keys = fc.constantFrom('1', '2', '.', '+', '-', '/', '*', 'Backspace');
    // A first figure, so that no key acts on an empty box before.
    for (const typed of fc.sample(fc.array(keys, { minLength: 1, maxLength: 7 }), { numRuns: 40, seed: 1984 })) {
      const all = ['3', '5', '2', '5', '1', '3', '7', ...typed];
      for (const key of all) await page.keyboard.press(key);
      await page.keyboard.press('Enter');
      const price = await priceBox(page).inputValue();
      const wentOn = (await page.evaluate(() => document.activeElement?.getAttribute('name'))) === 'buyer';
      const signs = all.some((key) => '+-/*'.includes(key));
      const said = await page.locator('form.call').locator('.field-error, [role=status]').allInnerTexts();
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
    const { left } = (await (await fetch(`${house.server.url}/api/views/board`)).json()) as { left: number };
    await giveOffice('sale.stage', { saleId: 1, stage: 'settling', reason: '', left });
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
    const box = page.getByRole('form', { name: 'Lot by number' });
    await box.getByText('The bidding has ended. To sell another lot, go back to selling under Sale.').waitFor();
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
