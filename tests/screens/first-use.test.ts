import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '#db/open.ts';
import { tempFile } from '#tests/support/temp.ts';
import { axe } from './support/axe.ts';
import { newPage, openBrowser } from './support/browser.ts';
import { type Server, startServer } from './support/server.ts';

const bookFile = tempFile();
let browser: Browser;
let server: Server;

beforeAll(async () => {
  server = await startServer({ bookFile });
  browser = await openBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const field = (page: Page, label: string) => page.getByLabel(label, { exact: true });

function salesInBook(): unknown {
  const book = openBook(bookFile);
  const many = book.sqlite.prepare('SELECT count(*) FROM sale').pluck().get();
  book.close();
  return many;
}

describe('the form of an empty book', () => {
  it.each(['light', 'dark', 'sun'])('has nothing that axe-core finds at 320 px in the theme %s', async (theme) => {
    const page = await newPage(browser, { viewport: { width: 320, height: 700 } });
    await page.addInitScript((name) => localStorage.setItem('peltry-theme', name), theme);
    await page.goto(server.hallUrl);
    expect(await axe(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
  });

  it.each([
    ['Members pay, %', '12,5'],
    ['Members pay, %', '1e1'],
    ['Lot fee', '-1'],
    ['Prices go by', '0.005'],
    ['Dues', 'NaN'],
  ])('refuses for %s what is no figure: %s, says it there, and keeps what was typed', async (label, wrong) => {
    const page = await newPage(browser);
    await page.goto(server.hallUrl);
    const right = {
      ...{ Association: 'Lantern Ridge Fur Harvesters', 'Name of the sale': 'Winter Sale', 'Held on': '2026-02-28' },
      ...{ Season: '2025-26', State: 'US-WY' },
    };
    for (const [name, text] of Object.entries(right)) await field(page, name).fill(text);
    await field(page, label).fill(wrong);
    await page.getByLabel('Weasel').uncheck();
    await page.getByRole('button', { name: 'Plan the sale' }).click();
    const wrongField = page.locator('.field[data-wrong]');
    await wrongField.waitFor();
    expect(await wrongField.innerText()).toMatch(/\.$/);
    expect(await field(page, label).getAttribute('aria-invalid')).toBe('true');
    expect(await field(page, label).inputValue()).toBe(wrong);
    for (const [name, text] of Object.entries(right)) expect(await field(page, name).inputValue()).toBe(text);
    expect(await page.getByLabel('Weasel').isChecked()).toBe(false);
    expect(salesInBook()).toBe(0);
  });
});
