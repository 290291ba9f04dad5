/**
 * `npm run shots [-- <folder>]`: every screen of the demo in each theme and width, and every paper, as pictures to be
 * looked at one by one. No test: whether something pleases is for people to say.
 * `npm run shots -- --guides`: the pictures of the guides, into docs/pictures/.
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { BrowserContext } from 'playwright-core';
import sharp from 'sharp';
import { AFTERWARDS, SCREENS } from './support/addresses.ts';
import { type Demo, signedIn, withDemo } from './support/demo.ts';
import { GUIDE_PICTURES, guidePicture } from './support/guide-pictures.ts';
import type { Server } from './support/server.ts';

const THEMES = ['light', 'dark', 'sun'] as const;
const WIDTHS = [320, 375, 820, 1366] as const;
const HEIGHT = 900;

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
  'results?sale=3',
  ...['check-register', 'balance', 'closing-report', 'kept', 'agency-return', 'held-over'].map(
    (paper) => `payout/${paper}?sale=3`,
  ),
];

const nameOf = (address: string) => address.replace(/^\//, '').replace(/[^a-z0-9]+/gi, '-') || 'sale';

async function takeScreens(context: BrowserContext, server: Server, into: string): Promise<void> {
  mkdirSync(into, { recursive: true });
  const page = await context.newPage();
  for (const address of [...SCREENS, ...AFTERWARDS]) {
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

async function takeGuidePictures(demo: Demo, into: string): Promise<void> {
  rmSync(into, { recursive: true, force: true });
  mkdirSync(into, { recursive: true });
  const context = await signedIn(demo, 'light');
  const page = await context.newPage();
  for (const picture of GUIDE_PICTURES) {
    const drawn = await guidePicture(page, demo.server.url, picture);
    // A screen has few colours: a palette of them takes a quarter of the bytes.
    const bytes = await sharp(drawn).png({ palette: true, colours: 64, effort: 10 }).toBuffer();
    writeFileSync(join(into, `${picture.name}.png`), bytes);
    console.log(`${picture.name}.png: ${Math.ceil(bytes.length / 1000)} kB`);
  }
  await context.close();
}

async function takeAll(demo: Demo, folder: string): Promise<void> {
  for (const theme of THEMES) {
    const context = await signedIn(demo, theme);
    await takeScreens(context, demo.server, join(folder, theme));
    if (theme === 'light') await takePapers(context, demo.server, join(folder, 'papers'));
    await context.close();
  }
}

const [asked] = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), 'peltry-shots-'));
if (asked === '--guides') {
  const into = resolve('docs/pictures');
  await withDemo(folder, (demo) => takeGuidePictures(demo, into));
  rmSync(folder, { recursive: true });
  console.log(`The pictures are in ${into}`);
} else {
  const into = asked === undefined ? folder : resolve(asked);
  mkdirSync(into, { recursive: true });
  await withDemo(folder, (demo) => takeAll(demo, into));
  console.log(`The pictures are in ${into}`);
}
