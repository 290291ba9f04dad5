import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '#db/open.ts';
import { closeSale } from '#tests/support/close-sale.ts';
import { GOODS, hallOf, SALE } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';
import { axe } from './support/axe.ts';
import { newPage, openBrowser } from './support/browser.ts';
import { type Server, startServer } from './support/server.ts';

const bookFile = tempFile();
let browser: Browser;
let server: Server;

const SEASONS = [
  {
    season: '2024-25',
    held_on: '2025-02-22',
    prices: ['4.00', '6.00', '8.00', '10.00'],
    closed: true,
  },
  { season: '2025-26', held_on: '2026-02-28', prices: ['3.50', '6.25', '9.75', '14.00'], closed: false },
];

/** Two seasons of raccoon, four sellers and three buyers, the newer one still going on; one bobcat that tells too much. */
function fillPrices(): void {
  const hall = hallOf(openBook(bookFile, { create: true }), 1);
  const { must, id } = hall;
  must('association.set', { name: 'Lantern Ridge Fur Harvesters' });
  const people = ['Ada', 'Bea', 'Cal', 'Dot', 'Eve', 'Fay', 'Gil'].map((name) =>
    id(must('person.enrol', { name, memberUntil: '2026-12-31' }), 'personId'),
  );
  for (const { season, held_on, prices, closed } of SEASONS) {
    const goods = GOODS.map((kind) => ({ ...kind, exportTag: false, tagSpeciesCode: '' }));
    const saleId = id(
      must('sale.plan', { sale: { ...SALE, name: `Sale of ${season}`, season, held_on }, goods }),
      'saleId',
    );
    must('sale.stage', { saleId, stage: 'intake', reason: '' });
    for (const [at, personId] of people.entries()) {
      if (at < 4) must('seller.register', { saleId, sellerNo: at + 1, partners: [{ personId }] });
      else must('buyer.register', { saleId, buyerNo: at + 6, personId, cleared: true });
    }
    for (const [at] of prices.entries()) {
      must('lot.add', {
        saleId,
        sellerNo: at + 1,
        goods: 'raccoon',
        count: '10',
        size: at % 2 ? 'L' : 'XL',
        grade: 'I',
      });
    }
    must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1' });
    must('sale.stage', { saleId, stage: 'selling', reason: '' });
    for (const [at, price] of [...prices, '190.00'].entries()) {
      const said = { saleId, lotNo: String(at + 1), kind: 'sold', price, buyerNo: 10 + (at % 3) };
      must('outcome.record', { ...said, answered: ['off_step'] });
    }
    if (closed) closeSale(hall, saleId);
  }
  hall.book.close();
}

beforeAll(async () => {
  fillPrices();
  server = await startServer({ bookFile });
  browser = await openBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.stop();
});

const fits = (page: Page) => page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth);

describe('the prices', () => {
  it('say without a script what goods brought, and lead to the seasons of one kind in one tap', async () => {
    const page = await newPage(browser, { javaScriptEnabled: false, viewport: { width: 320, height: 640 } });
    await page.goto(`${server.hallUrl}/prices`);
    const said =
      'Raccoon brought 3.50 to 14.00 in season 2025-26; half of them between 5.56 and 10.81 (40 pieces, 4 lots).';
    expect(await page.getByText(said).count()).toBe(1);
    expect(await page.getByText('28 February 2026').count()).toBe(1);
    expect(await page.getByText('is still going on').count()).toBe(1);
    await page.getByRole('link', { name: 'Raccoon', exact: true }).click();
    await page.getByRole('heading', { name: 'Raccoon' }).waitFor();
    expect(await page.locator('.strip li').count()).toBe(2);
    expect(await page.getByRole('row', { name: /2024-25.*22 February 2025.*4\.00.*10\.00/ }).count()).toBe(1);
  });

  it('tell nothing of a lone seller or buyer', async () => {
    for (const path of ['/prices', '/prices/bobcat', '/prices/data/2025-26.csv', '/prices/data/2025-26.json']) {
      const text = await (await fetch(`${server.url}${path}`)).text();
      expect(text, path).not.toContain('190.00');
    }
    const page = await newPage(browser);
    await page.goto(`${server.hallUrl}/prices`);
    expect(await page.getByText('too few to be shown: Bobcat').count()).toBe(1);
  });

  it.each(['light', 'dark', 'sun'])(
    'have no fault that axe finds and no sideways scroll at 320 px in the theme %s',
    async (theme) => {
      const page = await newPage(browser, { viewport: { width: 320, height: 640 } });
      await page.addInitScript((chosen) => localStorage.setItem('peltry-theme', chosen), theme);
      for (const path of ['/prices', '/prices/raccoon']) {
        await page.goto(`${server.hallUrl}${path}`);
        expect(await axe(page), path).toEqual([]);
        expect(await fits(page), path).toBe(true);
      }
    },
  );

  it('print on one page', async () => {
    const page = await newPage(browser);
    for (const path of ['/prices', '/prices/raccoon']) {
      await page.goto(`${server.hallUrl}${path}`);
      const pdf = (await page.pdf({ format: 'Letter' })).toString('latin1');
      expect(pdf.match(/\/Type\s*\/Page\b/g), path).toHaveLength(1);
    }
  });

  it("bring no script of their own: each they load is the framework's, which the Board loads as well", async () => {
    const scripts = async (path: string) => {
      const html = await (await fetch(`${server.url}${path}`)).text();
      return [...html.matchAll(/<script[^>]+src="([^"]+)"/g)].map(([, source]) => source);
    };
    const board = await scripts('/board');
    for (const path of ['/prices', '/prices/raccoon']) {
      const loaded = await scripts(path);
      expect(
        loaded.filter((source) => !board.includes(source)),
        path,
      ).toEqual([]);
      expect(loaded.length, path).toBeLessThan(board.length);
    }
  });

  it('answer 404 for goods and files that are not there', async () => {
    for (const path of ['/prices/unicorn', '/prices/data/1999-00.csv']) {
      expect((await fetch(`${server.url}${path}`)).status, path).toBe(404);
    }
  });
});
