import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openBook } from '#db/open.ts';
import { axe, axeInThemes } from './support/axe.ts';
import { newPage } from './support/browser.ts';
import { testHouse } from './support/house.ts';

const house = testHouse();

const field = (page: Page, label: string) => page.getByLabel(label, { exact: true });

function salesInBook(): unknown {
  const book = openBook(house.bookFile);
  const many = book.sqlite.prepare('SELECT count(*) FROM sale').pluck().get();
  book.close();
  return many;
}

function zoneInBook(): unknown {
  const book = openBook(house.bookFile);
  const zone = book.sqlite.prepare('SELECT time_zone FROM association').pluck().get();
  book.close();
  return zone;
}

const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();

const DAY = { 'Name of the sale': 'Winter Sale', 'Held on': '2026-02-28', Season: '2025-26', State: 'US-WY' };

const noTroubleAt320 = async (page: Page) => {
  expect(await axe(page)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
};

describe('an empty book', () => {
  it('asks whose it is, with nothing that axe finds at 320 px in any theme', async () => {
    const page = await newPage(house.browser, { viewport: { width: 320, height: 700 } });
    await page.goto(house.server.hallUrl);
    expect(await axeInThemes(page)).toEqual([]);
    await noTroubleAt320(page);
  });

  it('is planned step by step, and each step refuses what cannot be read and keeps what was typed', async () => {
    const phone = { viewport: { width: 320, height: 700 }, timezoneId: 'America/Boise' };
    const page = await newPage(house.browser, phone);
    await page.goto(house.server.hallUrl);
    await press(page, 'Go on');
    await page.locator('.field[data-wrong]').waitFor();
    await field(page, 'Association').fill('Lantern Ridge Fur Harvesters');
    expect(await field(page, 'Time zone').inputValue()).toBe('America/Boise');
    await field(page, 'Time zone').fill('Montana');
    await press(page, 'Go on');
    expect(await page.locator('.field[data-wrong]').textContent()).toContain('There is no time zone Montana.');
    expect(await field(page, 'Time zone').inputValue()).toBe('Montana');
    await field(page, 'Time zone').fill('America/Denver');
    await press(page, 'Go on');
    await page.getByText('Step 2 of 5').waitFor();
    expect(zoneInBook()).toBe('America/Denver');
    for (const [name, text] of Object.entries(DAY)) await field(page, name).fill(text);
    await field(page, 'Held on').fill('28 February');
    await noTroubleAt320(page);
    await press(page, 'Go on');
    expect(await page.locator('.field[data-wrong]').innerText()).toMatch(/year-month-day: 2026-02-28\.$/);
    expect(await field(page, 'Held on').inputValue()).toBe('28 February');
    await field(page, 'Held on').fill('2026-02-28');
    await press(page, 'Go on');
    await page.getByText('Step 3 of 5').waitFor();
    for (const [label, wrong] of [
      ['Members pay, %', '12,5'],
      ['Members pay, %', '1e1'],
      ['Lot fee', '-1'],
      ['Prices go by', '0.005'],
      ['Dues', 'NaN'],
    ] as const) {
      const right = await field(page, label).inputValue();
      await field(page, label).fill(wrong);
      await press(page, 'Go on');
      await page.locator('.field[data-wrong]').waitFor();
      expect(await page.locator('.field[data-wrong]').innerText()).toMatch(/\.$/);
      expect(await field(page, label).getAttribute('aria-invalid')).toBe('true');
      expect(await field(page, label).inputValue()).toBe(wrong);
      await field(page, label).fill(right);
    }
    await noTroubleAt320(page);
    await press(page, 'Go on');
    await page.getByText('Step 4 of 5').waitFor();
    await page.getByLabel('Weasel', { exact: true }).uncheck();
    await noTroubleAt320(page);
    // A reload in the middle brings everything back, before anything else can be typed or ticked.
    let arrive = () => {};
    const held = new Promise<void>((go) => {
      arrive = go;
    });
    await page.route(/\.js$/, (route) => held.then(() => route.continue()));
    await page.reload({ waitUntil: 'commit' });
    expect(await page.locator('.whole-form input').first().isDisabled()).toBe(true);
    arrive();
    await page.getByLabel('Skunk', { exact: true }).uncheck();
    expect(await page.getByLabel('Weasel', { exact: true }).isChecked()).toBe(false);
    await page.reload();
    await page.getByLabel('Skunk', { exact: true }).waitFor();
    expect(await page.getByLabel('Weasel', { exact: true }).isChecked()).toBe(false);
    expect(await page.getByLabel('Skunk', { exact: true }).isChecked()).toBe(false);
    expect(salesInBook()).toBe(0);
  });

  it('takes goods in the association’s own words, and then asks who works here', async () => {
    const page = await newPage(house.browser);
    await page.goto(house.server.hallUrl);
    await field(page, 'Name of the sale').waitFor();
    for (const [name, text] of Object.entries(DAY)) await field(page, name).fill(text);
    await press(page, 'Go on');
    await page.getByText('Step 3 of 5').waitFor();
    await press(page, 'Go on');
    await page.getByLabel('Weasel', { exact: true }).uncheck();
    const bobcat = page.getByRole('listitem').filter({ has: page.getByLabel('Bobcat (export tag)') });
    await bobcat.getByText('Change').click();
    await bobcat.getByLabel('Species code').fill('BOB');
    await bobcat.getByLabel('Season limit').fill('one');
    await press(page, 'Plan the sale');
    await bobcat.locator('.field[data-wrong]').waitFor();
    await bobcat.getByLabel('Season limit').fill('1');
    await bobcat.getByLabel('Grades').fill('I, II,III');
    await press(page, 'Plan the sale');
    await page.getByRole('link', { name: 'Enter the first worker' }).waitFor();
    expect(await axe(page)).toEqual([]);
    const book = openBook(house.bookFile);
    const goods = book.sqlite.prepare('SELECT goods, season_limit, grades FROM goods').all();
    book.close();
    expect(goods).toHaveLength(15);
    expect(goods).toContainEqual({ goods: 'bobcat', season_limit: 1, grades: '["I","II","III"]' });
  });
});

describe('a sale that is planned', () => {
  it('has its terms and goods changed, and another planned like it', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/sale/terms`);
    await field(page, 'Members pay, %').fill('5.5');
    await page.getByLabel('Add goods').selectOption({ label: 'Bobcat' });
    await field(page, 'Bobcat: members pay, %').fill('4');
    await press(page, 'Save the terms');
    await page.getByText('Enter a percentage, such as 6 or 3.75.').first().waitFor();
    await field(page, 'Bobcat: guests pay, %').fill('7.5');
    await noTroubleAt320(page);
    await press(page, 'Save the terms');
    await expect.poll(() => rows('SELECT commission_member_pct AS pct FROM sale')).toEqual([{ pct: '5.5' }]);
    await page.goto(`${house.server.hallUrl}/sale/goods`);
    await page.locator('summary', { hasText: 'Other goods' }).click();
    const form = page.getByRole('form', { name: 'Other goods' });
    await form.getByLabel('Short name').fill('badger');
    await form.getByLabel('Name', { exact: true }).fill('Badger');
    await form.getByRole('button', { name: 'Add these goods' }).click();
    await expect.poll(() => page.locator('summary', { hasText: 'Badger' }).count()).toBe(1);
    expect(await axe(page)).toEqual([]);
    await page.goto(`${house.server.hallUrl}/sale/next`);
    await field(page, 'Held on').fill('2027-02-27');
    await field(page, 'Season').fill('2026-27');
    await press(page, 'Plan it');
    await page.waitForURL(/sale=2/);
    await page.getByText('2027-02-27, season 2026-27.').waitFor();
    const terms = { member: '5.5', goods: 16, own: 1 };
    expect(rows(TERMS)).toEqual([terms, terms]);
  });
});

const TERMS = `SELECT commission_member_pct AS member, (SELECT count(*) FROM goods WHERE sale_id = sale.id) AS goods,
  (SELECT count(*) FROM commission_override WHERE sale_id = sale.id) AS own FROM sale ORDER BY id`;

function rows(query: string): unknown[] {
  const book = openBook(house.bookFile);
  const found = book.sqlite.prepare(query).all();
  book.close();
  return found;
}
