import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { programFile } from '#app/server/programs.mjs';
import { makePairing } from '#db/follow/laptops.ts';
import { openStore } from '#db/sign-in/store.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { callLot, openBlock, outcomesIn, untilSaved, untilTyping } from '#tests/screens/support/block.ts';
import { newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { tempFile } from '#tests/support/temp.ts';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
/** How many lots are called before the first laptop dies, and after it. */
const LOTS = Number.parseInt(process.env.TAKEOVER_LOTS ?? '4', 10);

const [first, second] = [tempFile('first.book'), tempFile('second.book')];
let browser: Browser;
let servers: Server[] = [];
let follower: ChildProcess;

beforeAll(async () => {
  fillSellingBook(first, { lots: 3 * LOTS }).close();
  servers = [await startServer({ bookFile: first })];
  browser = await theBrowser();
});
afterAll(async () => {
  follower?.kill('SIGKILL');
  for (const server of servers) await server.stop();
});

/** The code that the office of the first laptop shows. */
function codeHere(): string {
  const store = openStore(first);
  try {
    return makePairing(store, Date.now());
  } finally {
    store.close();
  }
}

/** Starts the second laptop's program; gives it once it has caught up. */
async function followed(url: string): Promise<ChildProcess> {
  const words = [programFile('cli'), 'follow', url, '--code', codeHere(), '--book', second];
  const child = spawn(process.execPath, words, {
    cwd: ROOT,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  for (const output of [child.stdout, child.stderr]) output?.on('data', (part) => (said += part));
  await expect.poll(() => said).toContain('Caught up at line');
  return child;
}

it('the second laptop takes over, and what the stations still had goes into its book, once each', async () => {
  const [one] = servers;
  if (!one) throw new Error('The first laptop does not serve.');
  const port = Number.parseInt(new URL(one.url).port, 10);
  follower = await followed(one.url);
  const page = await newPage(browser, { expected: [/Failed to load resource/, /net::ERR/, /5\d\d/] });
  await openBlock(page, one.hallUrl);
  for (let lot = 1; lot <= LOTS; lot += 1) {
    await callLot(page, '9.25', '10');
    await untilTyping(page, lot + 1);
  }
  await untilSaved(page);
  await expect.poll(() => outcomesIn(second).length).toBe(LOTS);
  await one.kill();
  for (let lot = LOTS + 1; lot <= 2 * LOTS; lot += 1) {
    await callLot(page, '9.25', '11');
    await untilTyping(page, lot + 1);
  }
  follower.kill('SIGINT');
  await once(follower, 'exit');
  const taking = spawn(process.execPath, [programFile('cli'), 'take-over', '--book', second], { cwd: ROOT });
  expect(await once(taking, 'exit')).toEqual([0, null]);
  servers = [await startServer({ bookFile: second, port })];
  await untilSaved(page);
  const ought = Array.from({ length: 2 * LOTS }, (_, at) => ({
    ...{ lotNumber: at + 1, kind: 'sold', priceCents: 925, buyerNo: at < LOTS ? 10 : 11 },
  }));
  expect(outcomesIn(second)).toEqual(ought);
  expect(verifyBook(second)).toMatchObject({ ok: true, problems: [] });
});

it('the first laptop, started again, refuses within one request what a browser still has, and nothing is merged unsaid', async () => {
  const [leads] = servers;
  if (!leads) throw new Error('The second laptop does not serve.');
  const before = [outcomesIn(first), outcomesIn(second)];
  const deposed = await startServer({ bookFile: first });
  servers = [leads, deposed];
  const waiting = await newPage(browser, { expected: [/Failed to load resource/, /net::ERR/, /5\d\d/] });
  await openBlock(waiting, deposed.hallUrl);
  await waiting.route('**/api/commands/*', (route) => route.abort());
  await callLot(waiting, '9.75', '10');
  await waiting.getByText('1 waiting').waitFor();
  // A browser that has given an entry to the second carries the word on to the first, at the same name.
  const carries = await newPage(browser, { expected: [/5\d\d/] });
  await openBlock(carries, leads.hallUrl);
  await callLot(carries, '9.25', '10');
  await untilSaved(carries);
  const heard = await carries.goto(`${deposed.hallUrl}/block`);
  expect(heard?.headers()['x-peltry-deposed'] ?? 'no').toBe('yes');
  const refused = waiting.waitForResponse(
    (answer) => answer.url().includes('/api/commands/') && answer.status() === 503,
  );
  await waiting.unroute('**/api/commands/*');
  await refused;
  await waiting.locator('.saved-mark').getByText('leads this book now').first().waitFor();
  expect(await waiting.getByText('1 waiting').count()).toBe(1);
  expect(outcomesIn(first)).toEqual(before[0]);
  // The second one answers at that address from now on. It has the lot: the clerk is told, and chooses.
  await deposed.stop();
  await leads.stop();
  servers = [await startServer({ bookFile: second, port: Number.parseInt(new URL(deposed.url).port, 10) })];
  await waiting
    .getByText(/already sold to buyer 11 at 9\.25/)
    .first()
    .waitFor();
  expect(outcomesIn(second)).toEqual([...(before[1] ?? []), expect.objectContaining({ lotNumber: 2 * LOTS + 1 })]);
  for (const book of [first, second]) expect(verifyBook(book)).toMatchObject({ ok: true, problems: [] });
});
