/** What is typed in a form stays where the page is read anew and the server is away at that very moment. */
import { randomUUID } from 'node:crypto';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axe } from '#tests/screens/support/axe.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { workerIn } from '#tests/screens/support/worker.ts';

const tokens = new Map<string, string>();
const house = testHouse((bookFile) => {
  fillSellingBook(bookFile, { lots: 3 }).close();
});

/** Another table enters something, which every page hears of. */
async function enter(name: string): Promise<void> {
  const { url } = house.server;
  const key = randomUUID();
  const cookie = `peltry-plain=${tokens.get('Cyd') ?? ''}`;
  const own = { 'content-type': 'application/json', 'idempotency-key': key, 'x-station': 'office' };
  const headers = { ...own, cookie, origin: url };
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

describe('a form that is half typed when the sign-in of its worker ends', () => {
  const signIn = (page: Page, name: string) =>
    page.context().addCookies([{ name: 'peltry-plain', value: tokens.get(name) ?? '', url: house.server.hallUrl }]);
  const note = (page: Page) => page.getByLabel('Note', { exact: true });
  const unfold = (page: Page) => page.getByText('Form, reserve, donated, note').click();

  it('stays, is shown to nobody else, and is back when that worker signs in again', async () => {
    for (const name of ['Ada', 'Bea', 'Cyd']) tokens.set(name, workerIn(house.bookFile, name).token);
    const page = await newPage(house.browser);
    const form = `${house.server.hallUrl}/intake/seller/1`;
    await signIn(page, 'Ada');
    await page.goto(form);
    await page.locator('.saved-mark').getByText('Saved').waitFor();
    await typedIn(page).fill('musk');
    await unfold(page);
    await note(page).fill('pale flanks');
    await page.context().clearCookies();
    await enter('Ewa Birch');
    await page.getByText('You are signed out. What you typed is kept here until you sign in again.').waitFor();
    expect([await typedIn(page).inputValue(), await note(page).inputValue()]).toEqual(['musk', 'pale flanks']);
    expect(await axe(page)).toEqual([]);
    await page.locator('main').getByRole('link', { name: 'Sign in' }).click();
    await page.getByLabel('Passphrase').waitFor();

    await signIn(page, 'Bea');
    await page.goto(form);
    await page.locator('.saved-mark').getByText('Saved').waitFor();
    expect([await typedIn(page).inputValue(), await note(page).inputValue()]).toEqual(['', '']);
    // And what she has half typed is kept for her, where Ada signs in behind the back of her page.
    await unfold(page);
    await note(page).fill('two small holes');
    await signIn(page, 'Ada');
    await enter('Fay Gorse');
    await page.getByText('What you had typed before you signed in is back.').waitFor();
    expect([await typedIn(page).inputValue(), await note(page).inputValue()]).toEqual(['musk', 'pale flanks']);

    await page.goto(`${house.server.hallUrl}/sign-in`);
    await page.getByLabel('Passphrase').waitFor();
    await signIn(page, 'Bea');
    await page.goto(`${house.server.hallUrl}/`);
    await page.waitForURL(/intake\/seller\/1$/);
    await page.getByText('What you had typed before you signed in is back.').waitFor();
    expect([await typedIn(page).inputValue(), await note(page).inputValue()]).toEqual(['', 'two small holes']);
    // Not a second time.
    await page.reload();
    await page.locator('.saved-mark').getByText('Saved').waitFor();
    expect(await note(page).inputValue()).toBe('');
  });

  it('is not put back where it was given and waits: it goes in once', async () => {
    const page = await newPage(house.browser);
    const form = `${house.server.hallUrl}/intake/seller/1`;
    await signIn(page, 'Ada');
    await page.goto(form);
    await page.locator('.saved-mark').getByText('Saved').waitFor();
    await typedIn(page).fill('raccoon');
    await typedIn(page).press('Enter');
    await page.getByLabel('Pieces').fill('3');
    await unfold(page);
    await note(page).fill('given once');
    await page.context().clearCookies();
    await page.getByRole('button', { name: 'Save the lot' }).click();
    await page.getByRole('link', { name: 'Sign in to send 1 entry' }).click();
    await page.getByLabel('Passphrase').waitFor();
    await signIn(page, 'Ada');
    await page.goto(form);
    await page.locator('.saved-mark').getByText('Saved').waitFor();
    await page.getByText('given once').first().waitFor();
    expect([await note(page).inputValue(), await page.getByLabel('Pieces').inputValue()]).toEqual(['', '']);
  });
});
