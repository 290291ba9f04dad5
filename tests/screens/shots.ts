/**
 * `npm run shots [-- folder]`: every screen of the demo in each theme and width, and every paper, as pictures to be looked
 * at one by one. No test: whether something pleases is for people to say.
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser, BrowserContext } from 'playwright-core';
import { DEMO_WORKER } from '#seed/demo-worker.ts';
import { files } from '#tests/tidy/tree.ts';
import { openBrowser } from './support/chromium.ts';
import { type Server, startServer } from './support/server.ts';

const THEMES = ['light', 'dark', 'sun'] as const;
const WIDTHS = [320, 375, 820, 1366] as const;
const HEIGHT = 900;

/** What stands for the parts of an address in brackets; the fourth sale of the demo is half sold, the third is closed. */
const SAMPLES: Readonly<Record<string, string>> = {
  '/intake/lot/[no]': '/intake/lot/120',
  '/intake/seller/[no]': '/intake/seller/2',
  '/till/[buyerNo]': '/till/2',
  '/payout/[sellerNo]': '/payout/2?sale=3',
  '/prices/[goods]': '/prices/raccoon',
  '/help/[page]': '/help/first-sale',
};

const PAPERS: readonly string[] = [
  'sheets?sale=3&seller=2',
  'invoice?sale=3&buyer=2',
  'payment-receipt?payment=1',
  'purchase-record?sale=3&buyer=2',
  'receipt?sale=4&seller=2',
  'tickets?sale=4&seller=2',
  'sale-list?sale=4',
  'tag-list?sale=4',
  'block-sheet?sale=4',
  ...['check-register', 'balance', 'closing-report', 'kept', 'agency-return', 'held-over'].map(
    (paper) => `payout/${paper}?sale=3`,
  ),
];

/** The address of every page of the application, with samples where it asks for one. */
function screens(): readonly string[] {
  return files(/^app\/.*\bpage\.tsx$/).map((path) => {
    const address = `/${path.replace(/^app\/?/, '').replace(/\/?page\.tsx$/, '')}`.replace(/\/\(\w+\)/g, '') || '/';
    const [asked] = Object.keys(SAMPLES).filter((sample) => address === sample || address.startsWith(`${sample}/`));
    if (asked === undefined) {
      if (address.includes('[')) throw new Error(`Say in SAMPLES what ${address} is to show.`);
      return address;
    }
    const [sample = '', query] = (SAMPLES[asked] ?? '').split('?');
    return sample + address.slice(asked.length) + (query === undefined ? '' : `?${query}`);
  });
}

const nameOf = (address: string) => address.replace(/^\//, '').replace(/[^a-z0-9]+/gi, '-') || 'sale';

async function signIn(browser: Browser, server: Server, theme: string): Promise<BrowserContext> {
  const context = await browser.newContext({ reducedMotion: 'reduce' });
  await context.addInitScript((name) => localStorage.setItem('peltry-theme', name), theme);
  const { name, passphrase } = DEMO_WORKER;
  const answer = await context.request.post(`${server.url}/api/sign-in`, { data: { name, passphrase } });
  if (!answer.ok()) throw new Error(`Signing in to the demo: ${answer.status()}`);
  return context;
}

async function takeScreens(context: BrowserContext, server: Server, into: string): Promise<void> {
  const page = await context.newPage();
  for (const address of screens()) {
    await page.setViewportSize({ width: 1366, height: HEIGHT });
    await page.goto(server.url + address);
    await page.evaluate(() => document.fonts.ready.then(() => undefined));
    for (const width of WIDTHS) {
      await page.setViewportSize({ width, height: HEIGHT });
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      if (wide > 0) console.log(`${address} at ${width}: ${wide} px too wide`);
      await page.screenshot({ path: join(into, `${nameOf(address)}-${width}.png`), fullPage: true });
    }
  }
  await page.close();
}

async function takePapers(context: BrowserContext, server: Server, into: string): Promise<void> {
  mkdirSync(into, { recursive: true });
  for (const paper of PAPERS) {
    const answer = await context.request.get(`${server.url}/api/papers/${paper}`);
    if (!answer.ok()) {
      console.log(`${paper}: ${answer.status()} ${await answer.text()}`);
      continue;
    }
    const file = join(into, nameOf(paper));
    writeFileSync(`${file}.pdf`, await answer.body());
    execFileSync('pdftoppm', ['-r', '60', '-png', '-l', '3', `${file}.pdf`, file]);
  }
}

const folder = resolve(process.argv[2] ?? join(tmpdir(), 'peltry-shots'));
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
const bookFile = join(folder, 'demo.book');
execFileSync(process.execPath, ['node_modules/tsx/dist/cli.mjs', 'seed/fill.ts', bookFile], { stdio: 'inherit' });
const server = await startServer({ bookFile });
const browser = await openBrowser();
try {
  for (const theme of THEMES) {
    const context = await signIn(browser, server, theme);
    mkdirSync(join(folder, theme));
    await takeScreens(context, server, join(folder, theme));
    if (theme === 'light') await takePapers(context, server, join(folder, 'papers'));
    await context.close();
  }
} finally {
  await browser.close();
  await server.stop();
}
console.log(`The pictures are in ${folder}`);
