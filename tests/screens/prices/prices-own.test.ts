import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { digestOfCode } from '#db/sign-in/credentials.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { hallOf, openHall } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

const bookFile = tempFile();
const GOOD = 'ABCD-EFGH-2345';
const LATE = 'LATE-LATE-2345';
let browser: Browser;
let server: Server;

/** Ada is seller 1, Bea seller 2; each sold a lot and has a sheet. Ada has a good code, and one whose time is up. */
beforeAll(async () => {
  const hall = openHall({ file: bookFile, stage: 'intake' });
  const { must, saleId } = hall;
  must('seller.register', { saleId, sellerNo: 2, partners: [{ personId: 2 }] });
  for (const sellerNo of [1, 2]) must('lot.add', { saleId, sellerNo, goods: 'raccoon', count: String(10 * sellerNo) });
  must('sale.stage', { saleId, stage: 'selling', reason: '' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 11 });
  must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '8.75', buyerNo: 11 });
  must('settlement.issue', { saleId, sellerNo: null, seen: 2 });
  code(hall, LATE, '2026-01-01T10:00:00Z');
  code(hall, GOOD, new Date().toISOString());
  hall.book.close();
  server = await startServer({ bookFile });
  browser = await theBrowser();
});

afterAll(async () => {
  await server?.stop();
});

function code({ give }: ReturnType<typeof hallOf>, typed: string, at: string): void {
  expect(give('member.code', { personId: 1, codeHash: digestOfCode(typed), minutes: 60 }, { at }).ok).toBe(true);
}

async function enter(typed: string, origin = server.url) {
  const answer = await fetch(`${server.url}/prices/own/enter`, {
    method: 'POST',
    redirect: 'manual',
    headers: { 'content-type': 'application/x-www-form-urlencoded', origin },
    body: new URLSearchParams({ code: typed }).toString(),
  });
  return { to: answer.headers.get('location'), cookie: answer.headers.get('set-cookie') };
}

const sheet = (sellerNo: number, cookie?: string) =>
  fetch(`${server.url}/prices/own/sheet?sale=1&seller=${sellerNo}`, { headers: cookie ? { cookie } : {} });

const lines = () => {
  const book = openBook(bookFile);
  const count = book.sqlite.prepare('SELECT count(*) FROM log').pluck().get();
  book.close();
  return count;
};

describe('a member’s own goods', () => {
  it('stay shut without a code, with a wrong or late one, and to a form of another site', async () => {
    const before = lines();
    const shut = { to: '/prices/own?wrong=1', cookie: null };
    expect(await enter('XXXX-XXXX-XXXX')).toEqual(shut);
    expect(await enter('')).toEqual(shut);
    expect(await enter(LATE)).toEqual(shut);
    expect(await enter(GOOD, 'http://elsewhere.test')).toEqual(shut);
    expect(lines()).toBe(before);
    expect((await sheet(1)).status).toBe(401);
    expect((await sheet(1, 'peltry-own=made-up')).status).toBe(401);
    const text = await (await fetch(`${server.url}/prices/own`, { headers: { cookie: 'peltry-own=made-up' } })).text();
    expect(text).not.toContain('Ada');
    expect(text).toContain('Code from the office');
  });

  it('open once with a good code, show what is their own and nothing of others, and close again', async () => {
    const page = await newPage(browser, { javaScriptEnabled: false, viewport: { width: 320, height: 640 } });
    await page.goto(`${server.url}/prices/own`);
    await page.getByLabel('Code from the office').fill('abcd efgh 2345');
    await page.getByRole('button', { name: 'Show my goods' }).click();
    await page.getByText('Ada Birch: newest sale first.').waitFor();
    expect(await page.getByRole('row', { name: 'Raccoon 10 pieces 7.25 each 72.50 1' }).count()).toBe(1);
    expect(await page.getByText('8.75').count()).toBe(0);
    expect(await enter(GOOD)).toEqual({ to: '/prices/own?wrong=1', cookie: null });

    const [cookie] = await page.context().cookies();
    expect(cookie).toMatchObject({ name: 'peltry-own', path: '/prices/own', httpOnly: true, sameSite: 'Strict' });
    const own = `peltry-own=${cookie?.value}`;
    expect((await sheet(1, own)).headers.get('content-type')).toBe('application/pdf');
    const [others, nobodys] = [await sheet(2, own), await sheet(99, own)];
    expect([others.status, nobodys.status]).toEqual([404, 404]);
    expect(await others.text()).toBe(await nobodys.text());

    await page.getByRole('button', { name: 'Close this page on this device' }).click();
    await page.getByLabel('Code from the office').waitFor();
    expect((await sheet(1, own)).status).toBe(401);
  });

  it('get their code at the office, which sees it once; the book keeps its hash', async () => {
    const page = await newPage(browser, { viewport: { width: 375, height: 800 } });
    await page.goto(`${server.url}/office/people?find=ada`);
    await page.getByRole('button', { name: 'Code for Ada Birch’s own prices, for a quarter of an hour' }).click();
    const said = await page.getByText(/^[A-Z2-9]{4}(-[A-Z2-9]{4}){2}: good once/).textContent();
    const drawn = said?.slice(0, 14) ?? '';
    const book = openBook(bookFile);
    const inLog = book.sqlite
      .prepare(`SELECT input FROM log WHERE command = 'member.code' ORDER BY seq DESC`)
      .pluck()
      .get();
    book.close();
    expect(inLog).toContain(digestOfCode(drawn));
    expect(inLog).not.toContain(drawn);
    expect((await enter(drawn)).to).toBe('/prices/own');
  });

  it('have no fault that axe finds', async () => {
    const page = await newPage(browser, { viewport: { width: 320, height: 640 } });
    const book = openBook(bookFile);
    code(hallOf(book, 1), 'AXES-AXES-2345', new Date().toISOString());
    book.close();
    await page.goto(`${server.url}/prices/own?wrong=1`);
    expect(await axe(page)).toEqual([]);
    await page.getByLabel('Code from the office').fill('AXES-AXES-2345');
    await page.getByRole('button', { name: 'Show my goods' }).click();
    await page.getByText('Ada Birch: newest sale first.').waitFor();
    expect(await axe(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
  });
});
