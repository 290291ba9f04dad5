import { setTimeout as sleep } from 'node:timers/promises';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { callLot, openBlock, outcomesIn, untilSaved } from '#tests/screens/support/block.ts';
import { newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { badLine, type Mishap } from '#tests/screens/support/failing.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { tempFile } from '#tests/support/temp.ts';

/** Half an afternoon in the check; a whole one, and more, by hand. */
const LOTS = Number.parseInt(process.env.BAD_LINE_LOTS ?? '168', 10);
const KILLED_AFTER = [0.2, 0.55, 0.85].map((part) => Math.floor(LOTS * part));
const MISHAPS: readonly Mishap[] = [
  'none',
  'request lost',
  'none',
  'answer lost',
  'none',
  'sent twice',
  'none',
  'late',
];

let browser: Browser;
let server: Server;
const bookFile = tempFile();

beforeAll(async () => {
  fillSellingBook(bookFile, { lots: LOTS }).close();
  server = await startServer({ bookFile });
  browser = await theBrowser();
});

afterAll(async () => {
  await server?.stop();
});

const priceOf = (lot: number) => `${9 + (lot % 7)}.${lot % 2 === 0 ? '50' : '25'}`;
const centsOf = (lot: number) => (9 + (lot % 7)) * 100 + (lot % 2 === 0 ? 50 : 25);

describe('lots called on a bad line, on a host name that is no secure context', () => {
  it('are each in the book once and in order, though the server is killed three times', {
    timeout: 3_600_000,
  }, async () => {
    const line = await badLine(
      Number.parseInt(new URL(server.url).port, 10),
      (entry) => MISHAPS[entry % MISHAPS.length] ?? 'none',
    );
    const page = await newPage(browser, {
      expected: [/Failed to load resource/, /net::ERR/, /status of 5\d\d/, /^5\d\d for/],
    });
    await openBlock(page, line.hallUrl);
    expect(await page.evaluate(() => window.isSecureContext)).toBe(false);
    let restarting: Promise<void> = Promise.resolve();
    for (let lot = 1; lot <= LOTS; lot += 1) {
      // The keys of a lot come right behind the Enter of the one before: none of them may get lost.
      await callLot(page, priceOf(lot), lot % 2 === 0 ? '10' : '11');
      if (KILLED_AFTER.includes(lot)) {
        await server.kill();
        // The clerk goes on while nobody answers.
        restarting = sleep(3000).then(server.restart);
      }
      if (lot % 25 === 0) await restarting.then(() => untilSaved(page));
    }
    await untilSaved(page);
    line.close();
    await server.stop();
    for (const mishap of MISHAPS) expect(line.befell.get(mishap) ?? 0, mishap).toBeGreaterThan(20);
    const ought = Array.from({ length: LOTS }, (_, at) => at + 1).map((lot) => ({
      ...{ lotNumber: lot, kind: 'sold', priceCents: centsOf(lot), buyerNo: lot % 2 === 0 ? 10 : 11 },
    }));
    expect(outcomesIn(bookFile)).toEqual(ought);
  });
});
