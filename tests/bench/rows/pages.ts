/** Each page's own script and its first view on a slowed phone, beside an empty page of the same Next. */
import type { Browser } from 'playwright-core';
import { bookOf, newFile, sizeOf } from '#tests/bench/big-book.ts';
import { median } from '#tests/bench/figures.ts';
import type { Bench, Line } from '#tests/bench/row.ts';
import { serveBare, serveOurs } from '#tests/bench/server.ts';
import { shown } from '#tests/bench/table.ts';
import { openBrowser } from '#tests/screens/support/chromium.ts';
import { asOnAPhone } from '#tests/screens/support/phone.ts';

/** The pages that stand open all day, with the kilobytes that each may load beyond the framework. */
const PAGES = [
  { page: '/', most: 90 },
  { page: '/intake', most: 90 },
  { page: '/block', most: 15 },
  { page: '/board', most: 90 },
  { page: '/till', most: 90 },
  { page: '/payout', most: 90 },
  { page: '/prices', most: 15 },
  { page: '/prices/raccoon', most: 15 },
  { page: '/office', most: 90 },
] as const;

/** As large as a sale of the trade is. */
const LOTS = 400;

interface View {
  readonly scriptBytes: number;
  readonly largestMs: number;
}

interface Pair {
  readonly ours: View;
  readonly bare: View;
}

const row = async (bench: Bench): Promise<Line[]> => {
  const file = newFile();
  bookOf(sizeOf(LOTS, Math.floor(LOTS * 0.9)), file).close();
  const [ours, bare] = [await serveOurs(file), await serveBare()];
  const browser = await openBrowser();
  const lines: Line[] = [];
  const pages = bench.short ? PAGES.slice(1, 3) : PAGES;
  for (const { page, most } of pages) {
    const pairs: Pair[] = [];
    // The first time the server reads its files, and the browser its own.
    for (let run = 0; run <= bench.runs; run += 1) {
      const pair = { ours: await view(browser, `${ours.url}${page}`), bare: await view(browser, `${bare.url}/`) };
      if (run > 0) pairs.push(pair);
    }
    lines.push(...linesOf(page, most, pairs));
  }
  await browser.close();
  await Promise.all([ours.stop(), bare.stop()]);
  return lines;
};

export default row;

function linesOf(page: string, most: number, pairs: readonly Pair[]): Line[] {
  const middle = (pick: (pair: Pair) => number) => shown(median(pairs.map(pick)));
  return [
    {
      what: `${page}, the script it loads beyond the framework, as gzip sends it`,
      against: 'an empty page of the same Next with one link, taken off',
      figures: pairs.map(({ ours, bare }) => (ours.scriptBytes - bare.scriptBytes) / 1000),
      unit: 'kB',
      target: { atMost: most },
      seen: `the framework alone ${middle(({ bare }) => bare.scriptBytes / 1000)} kB`,
    },
    {
      what: `${page}, first view on a phone four times slower, 1.6 Mbit/s and 150 ms there and back`,
      against: 'the time of an empty page of the same Next',
      figures: pairs.map(({ ours, bare }) => ours.largestMs / bare.largestMs),
      unit: '×',
      seen: `${middle(({ ours }) => ours.largestMs)} ms, empty ${middle(({ bare }) => bare.largestMs)} ms`,
    },
  ];
}

/** One look at a page in a browser that has nothing of it yet. */
async function view(browser: Browser, url: string): Promise<View> {
  const context = await browser.newContext({ viewport: { width: 375, height: 667 }, isMobile: true, hasTouch: true });
  const page = await context.newPage();
  const { largestMs } = await asOnAPhone(page, url);
  const scriptBytes = await page.evaluate(() =>
    performance
      .getEntriesByType('resource')
      .filter(({ name }) => new URL(name).pathname.endsWith('.js'))
      .reduce((sum, entry) => sum + (entry as PerformanceResourceTiming).encodedBodySize, 0),
  );
  await context.close();
  return { scriptBytes, largestMs };
}
