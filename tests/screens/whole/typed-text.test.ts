/** What is typed in a form stays where the page is read anew and the server is away at that very moment. */
import { randomUUID } from 'node:crypto';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';

const house = testHouse((bookFile) => {
  fillSellingBook(bookFile, { lots: 3 }).close();
});

/** Another table enters something, which every page hears of. */
async function enter(name: string): Promise<void> {
  const { url } = house.server;
  const key = randomUUID();
  const headers = { 'content-type': 'application/json', 'idempotency-key': key, 'x-station': 'office', origin: url };
  const body = JSON.stringify({ name, memberUntil: '2026-12-31' });
  const answer = await fetch(`${url}/api/commands/person.enrol`, { method: 'POST', headers, body });
  expect(answer.status, await answer.text()).toBe(200);
}

const isReading = ({ searchParams }: URL) => searchParams.has('_rsc');
const typedIn = (page: Page) => page.getByRole('combobox', { name: 'Goods' });

describe('a page that reads its figures anew', () => {
  it('keeps what is typed where the server was killed between the word and the reading', async () => {
    const page = await newPage(house.browser, {
      expected: [/net::ERR/, /Failed to load resource/, /Failed to fetch RSC payload/],
    });
    await page.goto(`${house.server.hallUrl}/intake/seller/1`);
    await page.locator('.saved-mark').getByText('Saved').waitFor();
    await typedIn(page).fill('musk');
    await page.evaluate(() => Object.assign(window, { drawnOnce: true }));
    let killed = 0;
    await page.route(isReading, async (route) => {
      killed += 1;
      if (killed === 1) await house.server.kill();
      await route.continue();
    });
    const failed = page.waitForEvent('requestfailed', (request) => isReading(new URL(request.url())));
    await Promise.all([failed, enter('Dora Elm')]);
    expect(await typedIn(page).inputValue()).toBe('musk');
    const answered = page.waitForResponse((response) => isReading(new URL(response.url())) && response.ok());
    await house.server.restart();
    await answered;
    expect(await typedIn(page).inputValue()).toBe('musk');
    expect(await page.evaluate(() => 'drawnOnce' in window)).toBe(true);
    expect(killed).toBeGreaterThan(1);
  });
});
