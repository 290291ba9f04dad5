import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { HALL_HOST, newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { raw } from '#tests/screens/support/http.ts';

/** One book that begins without workers: the first is entered, closes the book, lets others in. Each step needs the last. */
const PASSPHRASE = 'three dry pelts hanging';

const house = testHouse();

const field = (page: Page, label: string) => page.getByLabel(label, { exact: true });
const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });

function lastLine(): unknown {
  const book = openBook(house.bookFile);
  const row = book.sqlite.prepare('SELECT worker, command, input FROM log ORDER BY seq DESC').get();
  book.close();
  return row;
}

async function signIn(page: Page, name: string, passphrase: string): Promise<void> {
  await page.goto(`${house.server.hallUrl}/intake`);
  await page.waitForURL(/sign-in/);
  await field(page, 'Name').fill(name);
  await field(page, 'Passphrase').fill(passphrase);
  await button(page, 'Sign in').click();
}

describe('a book without workers', () => {
  it('is open until the first is entered, who is signed in at once and closes it to everybody else', async () => {
    const page = await newPage(house.browser, { viewport: { width: 320, height: 700 }, expected: [/status of 4\d\d/] });
    await page.goto(`${house.server.hallUrl}/office/workers`);
    await page.getByRole('heading', { name: 'The first worker' }).waitFor();
    expect(await axe(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    await field(page, 'Name').fill('Wren Tallow');
    await field(page, 'Passphrase').fill('short');
    await button(page, 'Enter and sign in').click();
    await page.locator('.field[data-wrong]', { hasText: 'at least 10 characters' }).waitFor();
    expect(await field(page, 'Name').inputValue()).toBe('Wren Tallow');
    await field(page, 'Passphrase').fill(PASSPHRASE);
    await button(page, 'Enter and sign in').click();
    await page.getByRole('link', { name: 'Wren Tallow' }).waitFor();
    expect(lastLine()).toMatchObject({ command: 'worker.add', input: expect.not.stringContaining(PASSPHRASE) });
  });
});

describe('somebody else', () => {
  it('is asked to sign in, learns nothing from a wrong try, and gets in with the passphrase', async () => {
    const page = await newPage(house.browser, { viewport: { width: 320, height: 700 }, expected: [/status of 4\d\d/] });
    await signIn(page, 'Wren Tallow', 'something else');
    await page.locator('.field-error', { hasText: 'do not belong together' }).waitFor();
    expect(await field(page, 'Name').inputValue()).toBe('Wren Tallow');
    expect(await axe(page)).toEqual([]);
    await field(page, 'Passphrase').fill(PASSPHRASE);
    await button(page, 'Sign in').click();
    await page.getByRole('link', { name: 'Wren Tallow' }).waitFor();
    const [cookie] = await page.context().cookies();
    expect(cookie).toMatchObject({ httpOnly: true, sameSite: 'Strict', path: '/' });
  });

  it('sees the Board and the prices, without a cookie', async () => {
    const { port } = new URL(house.server.url);
    for (const path of ['/board', '/prices']) {
      const { status, headers } = await raw(`${house.server.url}${path}`, {
        headers: { host: `${HALL_HOST}:${port}` },
      });
      expect([status, headers['set-cookie']], path).toEqual([200, undefined]);
    }
  });
});

describe('a phone', () => {
  it('is signed in with a code, works at its own station, and is signed out from the office', async () => {
    const office = await newPage(house.browser);
    await signIn(office, 'Wren Tallow', PASSPHRASE);
    await office.getByRole('link', { name: 'Wren Tallow' }).click();
    await office.getByRole('heading', { name: 'A further worker' }).waitFor();
    await field(office, 'Name').fill('Odo Marsh');
    await field(office, 'Passphrase').fill('four wet boots drying');
    await office.locator('form').getByLabel('Intake', { exact: true }).check();
    await button(office, 'Enter the worker').click();
    const odo = office.locator('details', { hasText: 'Odo Marsh: intake' });
    await odo.locator('summary').click();
    expect(await axe(office)).toEqual([]);
    await odo.getByRole('button', { name: 'Make a code for a phone' }).click();
    const said = odo.locator('output');
    await expect.poll(() => said.textContent()).toMatch(/^\w{4}-\w{4}-\w{4}/);

    const phone = await newPage(house.browser, {
      viewport: { width: 375, height: 700 },
      expected: [/status of 4\d\d/],
    });
    await phone.goto(`${house.server.hallUrl}/sign-in`);
    await field(phone, 'One-time code').fill(((await said.textContent()) ?? '').slice(0, 14));
    await button(phone, 'Use the code').click();
    await phone.waitForURL(/intake/);
    await phone.goto(`${house.server.hallUrl}/till`);
    await phone.getByText('Odo Marsh does not work at that station.').waitFor();

    // Their own passphrase, for which the old one is asked; this phone stays signed in.
    await phone.goto(`${house.server.hallUrl}/office/workers`);
    await phone.locator('summary', { hasText: 'Change your passphrase' }).click();
    await field(phone, 'The passphrase you have').fill('four dry boots wet');
    await field(phone, 'The new one').fill('five old hats on pegs');
    await button(phone, 'Change the passphrase').click();
    await phone.locator('.field-error', { hasText: 'This is not your passphrase.' }).waitFor();
    await field(phone, 'The passphrase you have').fill('four wet boots drying');
    await button(phone, 'Change the passphrase').click();
    await phone.getByText('Your passphrase is changed.').waitFor();
    expect(lastLine()).toMatchObject({ worker: 'Odo Marsh', command: 'worker.renew' });

    await odo.getByRole('button', { name: 'Sign Odo Marsh out everywhere' }).click();
    await expect
      .poll(async () => {
        await phone.goto(`${house.server.hallUrl}/intake`);
        return phone.url();
      })
      .toContain('sign-in');
  });
});
