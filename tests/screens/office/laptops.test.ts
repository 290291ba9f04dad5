import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { hostname } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { programFile } from '#app/server/programs.mjs';
import { idOfBook } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { makePairing } from '#db/follow/laptops.ts';
import { openStore } from '#db/sign-in/store.ts';
import { newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { raw } from '#tests/screens/support/http.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { tempFile } from '#tests/support/temp.ts';

/** What people see of two laptops: that one follows, that it leads now, what came in late, and what a browser remembers. */
const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const [first, second] = [tempFile('first.book'), tempFile('second.book')];
const children: ChildProcess[] = [];
let one: Server;
let two: Server | undefined;
let book = '';

beforeAll(async () => {
  fillSellingBook(first, { lots: 2 }).close();
  const open = openBook(first);
  book = idOfBook(open) ?? '';
  open.close();
  one = await startServer({ bookFile: first });
});
afterAll(async () => {
  for (const child of children) child.kill('SIGKILL');
  await one?.stop();
  await two?.stop();
});

const pageOf = async (url: string, expected: readonly RegExp[] = []): Promise<Page> => {
  const page = await newPage(await theBrowser(), { expected });
  await page.goto(`${url}/office`);
  return page;
};

function cli(...words: readonly string[]) {
  const child = spawn(process.execPath, [programFile('cli'), ...words, '--book', second], { cwd: ROOT });
  children.push(child);
  let said = '';
  for (const output of [child.stdout, child.stderr]) output.on('data', (part) => (said += part));
  return { child, said: () => said };
}

/** An entry as a browser sends it, typed on a page of this book in the first epoch. */
const enter = (url: string, name: string) => {
  const own = { 'content-type': 'application/json', 'x-station': 'office', origin: url };
  const headers = { ...own, 'idempotency-key': `entry-of-${name}`, 'x-book': `${book}:1` };
  return raw(`${url}/api/commands/person.enrol`, { method: 'POST', headers, body: JSON.stringify({ name }) });
};

describe('two laptops on the screens', () => {
  it('the office sees the laptop that follows, and how far it is', async () => {
    const store = openStore(first);
    const code = makePairing(store, Date.now());
    store.close();
    const { child, said } = cli('follow', one.url, '--code', code);
    await expect.poll(said).toContain('Caught up at line');
    const page = await pageOf(one.url);
    const laptop = page.getByRole('listitem').filter({ hasText: hostname() });
    await laptop.getByText(`${hostname()}: 0 entries behind`).waitFor();
    await laptop.getByText('heard now').waitFor();
    child.kill('SIGINT');
    await once(child, 'close');
  });

  it('the first one says who leads in its place, and where to keep what only it has', async () => {
    const { child, said } = cli('take-over');
    await once(child, 'close');
    expect(said()).toContain('was told, and takes no entries any more');
    expect(said()).toContain('epoch 2: the book has changed its laptop once, and the highest epoch leads');
    const page = await pageOf(one.url);
    const banner = page.getByText(`The laptop “${hostname()}” leads this book now: nothing is written here.`);
    await banner.waitFor();
    await page.getByRole('link', { name: 'What to do' }).first().click();
    await page.getByRole('heading', { level: 1, name: /leads this book now/ }).waitFor();
    await page.getByRole('link', { name: 'Not in the leading book' }).waitFor();
    expect((await enter(one.url, 'Too-Late')).status).toBe(503);
  });

  it('the second one says what waited in a browser meanwhile, and where it is in the log', async () => {
    two = await startServer({ bookFile: second, env: {} });
    expect((await enter(two.url, 'Had-Waited')).status).toBe(200);
    const page = await pageOf(two.url);
    await page.getByText('1 entry that waited in a browser while the laptops changed came in.').waitFor();
    await page.getByText(`(epoch 2: the book has changed its laptop once`).waitFor();
    await page.getByRole('link', { name: 'Look at the log' }).waitFor();
  });

  it('a browser that remembers a saved entry which this book lacks stops whoever works there', async () => {
    const url = two?.url ?? '';
    const page = await newPage(await theBrowser());
    await page.context().addCookies([{ name: `peltry-head-${book}`, value: `9999:${'ab'.repeat(10)}`, url }]);
    await page.goto(`${url}/office`);
    await page.getByText('The book at this address lacks entries that were saved. Stop and tell the office.').waitFor();
    await page.goto(`${url}/trouble`);
    await page.getByText('This browser was told that entry 9999 is saved.').waitFor();
    // Another browser works on.
    expect((await enter(url, 'Works-On')).status).toBe(200);
  });
});
