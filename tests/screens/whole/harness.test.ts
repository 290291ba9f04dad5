import { once } from 'node:events';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axe, axeInThemes, foldRepeated } from '#tests/screens/support/axe.ts';
import { HALL_HOST, newPage, theBrowser, watchForTroubles } from '#tests/screens/support/browser.ts';
import { freePort } from '#tests/screens/support/http.ts';
import { countKeys } from '#tests/screens/support/keys.ts';

const PAGE = `<!doctype html><html lang="en"><title>A form</title><main><h1>Price</h1>
<form><label>Price <input name="price"></label><button>Save</button></form></main></html>`;

const BAD = `<!doctype html><html lang="en"><title>Bad</title><main><h1>Bad</h1><img src="/none.png"><input>
<p style="color:#999;background:#fff">4.5:1 missed</p><p style="color:#666;background:#fff">7:1 missed</p>
<script>console.error('said aloud'); console.warn('said aside'); fetch('/refused'); fetch('/broken'); setTimeout(() => { throw new Error('thrown') });
</script></main></html>`;

const ANSWERS: Record<string, { readonly status: number; readonly body: string }> = {
  '/': { status: 200, body: PAGE },
  '/bad': { status: 200, body: BAD },
  '/refused': { status: 422, body: 'no' },
  '/broken': { status: 500, body: 'oh' },
};

let server: Server;
let browser: Browser;
let port: number;

beforeAll(async () => {
  server = createServer((request, response) => {
    const { status, body } = ANSWERS[request.url ?? ''] ?? { status: 404, body: 'none' };
    response.writeHead(status, { 'content-type': 'text/html' }).end(body);
  }).listen(0, '127.0.0.1');
  await once(server, 'listening');
  port = (server.address() as AddressInfo).port;
  browser = await theBrowser();
});

afterAll(async () => {
  server.close();
});

describe('a page of a browser test', () => {
  it('reaches this machine under the hall name, which is no secure context', async () => {
    const page = await newPage(browser);
    await page.goto(`http://${HALL_HOST}:${port}/`);
    expect(await page.evaluate(() => [window.isSecureContext, typeof crypto.randomUUID])).toEqual([false, 'undefined']);
    await page.goto(`http://127.0.0.1:${port}/`);
    expect(await page.evaluate(() => window.isSecureContext)).toBe(true);
  });

  it('notices every trouble but a refusal', async () => {
    const context = await browser.newContext();
    const troubles = watchForTroubles(context);
    const page = await context.newPage();
    await page.goto(`http://127.0.0.1:${port}/bad`, { waitUntil: 'networkidle' });
    await context.close();
    expect(troubles.map((trouble) => trouble.replace(/http:\S+/, 'URL')).sort()).toEqual([
      '404 for the image URL',
      '500 for the fetch URL',
      'console error: Failed to load resource: the server responded with a status of 500 (Internal Server Error)',
      'console error: said aloud',
      'console warning: said aside',
      'uncaught error: thrown',
    ]);
  });

  it.fails('fails its test for a trouble nobody expected', async () => {
    const page = await newPage(browser);
    await page.goto(`http://127.0.0.1:${port}/bad`, { waitUntil: 'networkidle' });
  });

  it('lets a test expect the trouble it makes', async () => {
    const page = await newPage(browser, {
      expected: [/none\.png/, /\/broken/, /status of 500/, /said aloud/, /said aside/, /thrown/],
    });
    await page.goto(`http://127.0.0.1:${port}/bad`, { waitUntil: 'networkidle' });
    expect(await page.title()).toBe('Bad');
  });
});

describe('counting keys', () => {
  it('counts each key once, over page loads, and pointer presses apart', async () => {
    const page = await newPage(browser);
    const keys = await countKeys(page);
    await page.goto(`http://127.0.0.1:${port}/`);
    await page.keyboard.press('Tab');
    await page.keyboard.type('12.50');
    await expect.poll(keys.pressed).toBe(6);
    await page.goto(`http://127.0.0.1:${port}/`);
    await page.keyboard.press('Shift+Tab');
    await expect.poll(keys.pressed).toBe(8);
    expect(keys.pointed()).toBe(0);
    await page.getByLabel('Price').click();
    await expect.poll(keys.pointed).toBe(1);
    keys.reset();
    expect([keys.pressed(), keys.pointed()]).toEqual([0, 0]);
  });
});

describe('axe', () => {
  it('finds nothing on a plain form and names what is wrong on a bad one', async () => {
    const page = await newPage(browser, { expected: [/./] });
    await page.goto(`http://127.0.0.1:${port}/`);
    expect(await axe(page)).toEqual([]);
    await page.goto(`http://127.0.0.1:${port}/bad`);
    const found = await axe(page);
    expect(found.map(({ id }) => id)).toEqual(expect.arrayContaining(['image-alt', 'label']));
    // One rule finds what misses 7:1 and what misses 4.5:1 as well, in each theme.
    expect(found.find(({ id }) => id === 'color-contrast-enhanced')?.where).toHaveLength(2);
    const inThemes = (await axeInThemes(page)).filter(({ id }) => id === 'color-contrast-enhanced');
    expect(inThemes.map(({ theme, where }) => [theme, where.length])).toEqual([
      ['light', 2],
      ['dark', 2],
      ['sun', 2],
    ]);
  });

  it('measures three of what is repeated, and each that is built in another way, has other classes or another state', async () => {
    const page = await newPage(browser);
    await page.goto(`http://127.0.0.1:${port}/`);
    await page.evaluate(() => {
      const same = '<li><b class="a">1</b></li>'.repeat(7);
      const others =
        '<li><b class="b">1</b></li><li data-state="late"><b class="a">1</b></li><li><i>1</i></li><li><b class="a"></b></li>';
      document.body.innerHTML = `<main><h1>Rows</h1><ul>${same}${others}</ul></main>`;
    });
    await foldRepeated(page);
    expect(await page.locator('li:not([style])').count()).toBe(3 + 4);
  });
});

describe('a free port', () => {
  it('can be listened on', async () => {
    const probe = createServer().listen(await freePort(), '127.0.0.1');
    await once(probe, 'listening');
    probe.close();
  });
});
