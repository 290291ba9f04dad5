// Long because its tests go on from one another, on one book that was empty when they began.
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { axe, axeInThemes } from '#tests/screens/support/axe.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { keys } from '#tests/screens/support/intake.ts';
import { isSaid, press, refuseUnseen } from '#tests/screens/support/refused.ts';

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

const DAY = { 'Name of the sale': 'Winter Sale', 'Held on': '2026-02-28', Season: '2025-26', State: 'US-WY' };

const fitsAt320 = (page: Page) => page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth);
const noTroubleAt320 = async (page: Page) => {
  expect(await axe(page)).toEqual([]);
  expect(await fitsAt320(page)).toBe(true);
};

describe('an empty book', () => {
  it('asks whose it is, with nothing that axe finds at 320 px in any theme', async () => {
    const page = await newPage(house.browser, { viewport: { width: 320, height: 700 } });
    await page.goto(house.server.hallUrl);
    expect(await axeInThemes(page)).toEqual([]);
    expect(await fitsAt320(page)).toBe(true);
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
    await page.locator('.field[data-wrong]', { hasText: 'There is no time zone Montana.' }).waitFor();
    expect(await field(page, 'Time zone').inputValue()).toBe('Montana');
    await field(page, 'Time zone').fill('America/Denver');
    await press(page, 'Go on');
    await page.getByText('Step 2 of 5').waitFor();
    expect(zoneInBook()).toBe('America/Denver');
    for (const [name, text] of Object.entries(DAY)) await field(page, name).fill(text);
    await field(page, 'Held on').fill('28 February');
    await noTroubleAt320(page);
    await press(page, 'Go on');
    expect(await page.locator('.field[data-wrong]').innerText()).toMatch(/Enter the year too, such as Feb 28, 2026\.$/);
    expect(await field(page, 'Held on').inputValue()).toBe('28 February');
    await field(page, 'Held on').fill('2/28/2026');
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
    await page.getByText('Feb 27, 2027, season 2026-27.').waitFor();
    const terms = { member: '5.5', goods: 16, own: 1 };
    expect(rows(TERMS)).toEqual([terms, terms]);
  });
});

describe('the check-in table with the goods as they come', () => {
  const asOffice = async (command: string, input: object) => {
    const { url } = house.server;
    const own = { 'idempotency-key': `first-use-${command.replace('.', '-')}`, 'x-station': 'office' };
    const headers = { 'content-type': 'application/json', origin: url, ...own };
    const answer = await fetch(`${url}/api/commands/${command}`, {
      method: 'POST',
      headers,
      body: JSON.stringify(input),
    });
    expect(await answer.text()).toContain('"ok":true');
  };
  const lots = () =>
    rows('SELECT goods, count, minimum_cents AS minimum, section FROM lot JOIN goods ON goods.id = goods_id');
  const atSeller = async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/intake/seller/1?sale=1`);
    await page.getByText('Saved').waitFor();
    return { page, goods: page.getByRole('combobox', { name: 'Goods' }) };
  };
  const inLine = (page: Page, label: string) => field(page, label).and(page.locator('input, select'));
  const hasFocus = (page: Page, label: string) =>
    expect
      .poll(() => page.evaluate(() => (document.activeElement as HTMLInputElement)?.labels?.[0]?.textContent))
      .toBe(label);

  beforeAll(async () => {
    await asOffice('sale.stage', { saleId: 1, stage: 'intake', reason: '' });
    await asOffice('person.enrol', { name: 'Orla Finch' });
    await asOffice('seller.register', { saleId: 1, sellerNo: 1, partners: [{ personId: 1 }] });
  });

  it('saves the lot at Enter in the minimum and in the section, and gives neither to the next lot', async () => {
    const { page, goods } = await atSeller();
    await goods.focus();
    await keys(page, 'beav', 'Enter', '5');
    await inLine(page, 'Minimum').focus();
    await keys(page, '20.00', 'Enter');
    await page.getByText('is in: Beaver, 5').waitFor();
    await hasFocus(page, 'Goods');
    expect(await inLine(page, 'Minimum').inputValue()).toBe('');
    await keys(page, 'musk', 'Enter', '7');
    await inLine(page, 'Section').focus();
    await keys(page, 'East', 'Enter');
    await page.getByText('is in: Muskrat, 7').waitFor();
    expect(lots()).toEqual([
      { goods: 'beaver', count: 5, minimum: 2000, section: '' },
      { goods: 'muskrat', count: 7, minimum: null, section: 'East' },
    ]);
  });

  it('goes on or saves at Enter in every field of every form of goods', async () => {
    const { page, goods } = await atSeller();
    const begin = async (letters: string) => {
      await goods.focus();
      await keys(page, letters, 'Enter');
    };
    // A choice of a few opens its list at Enter, as the browser has it everywhere.
    for (const label of ['Pieces', 'Size', 'Grade', 'Section', 'Minimum', 'Note', 'Donated to the association']) {
      const before = lots().length;
      await begin('beav');
      await inLine(page, 'Pieces').fill('3');
      if (await inLine(page, label).isHidden()) await page.getByText('Form, reserve, donated, note').click();
      await inLine(page, label).focus();
      await keys(page, 'Enter');
      await expect.poll(() => lots().length, { message: label }).toBe(before + 1);
      await hasFocus(page, 'Goods');
    }
    // By weight, the pieces may be left out; with tags, these come last.
    await begin('castor');
    await hasFocus(page, 'Weight in oz');
    await inLine(page, 'Pieces, if counted').focus();
    await keys(page, 'Enter');
    await hasFocus(page, 'Weight in oz');
    await keys(page, '16.5', 'Enter');
    await page.getByText('is in: Beaver castor, 16.5').waitFor();
    await begin('bob');
    await inLine(page, 'Pieces').fill('1');
    for (const [from, to] of [
      ['Size', 'Grade'],
      ['Grade', 'Export tags'],
      ['Section', 'Export tags'],
      ['Minimum', 'Export tags'],
    ] as const) {
      await inLine(page, from).focus();
      await keys(page, 'Enter');
      await hasFocus(page, to);
    }
    await keys(page, 'Enter');
    await page.getByText('is on hold: Bobcat, 1').waitFor();
  });

  it('sends no weight that is not seen, and says which goods are not on the list', async () => {
    const { page, goods } = await atSeller();
    await goods.focus();
    await keys(page, 'castor', 'Enter', '16.5');
    await goods.focus();
    await keys(page, 'nutria', 'Enter');
    await page.getByText('“nutria” is not on this sale’s list.').waitFor();
    await page.getByText('have the office add it on the Sale page, under Goods').waitFor();
    await keys(page, 'Control+Enter');
    expect(await goods.inputValue()).toBe('nutria');
    expect(await axe(page)).toEqual([]);
    await goods.fill('');
    await keys(page, 'skun', 'Enter', '4', 'Enter');
    await page.getByText('is in: Skunk, 4').waitFor();
  });

  it('says a refusal about a field that is not drawn', async () => {
    const { page, goods } = await atSeller();
    const sentence = await refuseUnseen(page, 'lot.add', 'weight');
    await goods.focus();
    await keys(page, 'beav', 'Enter', '5', 'Enter');
    await isSaid(page, sentence);
    expect(await inLine(page, 'Pieces').inputValue()).toBe('5');
  });

  it('saves a change at Enter in the minimum on the lot’s own page', async () => {
    await asOffice('lot.add', { saleId: 1, sellerNo: 1, goods: 'mink', lotNo: '900', count: '6' });
    const { page } = await atSeller();
    await page.goto(`${house.server.hallUrl}/intake/lot/900?sale=1`);
    await page.getByText('Saved').waitFor();
    await inLine(page, 'Minimum').fill('21.00');
    await keys(page, 'Enter');
    await page.waitForURL(/intake\/seller\/1/);
    expect(lots()).toContainEqual({ goods: 'mink', count: 6, minimum: 2100, section: '' });
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
