import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lineWithKey } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { workerIn } from '#tests/screens/support/worker.ts';
import { rowsOfFile } from '#tests/support/book-file.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

const FROM_A_TABLE = { 'content-type': 'application/json', 'x-station': 'office' };

let browser: Browser;
beforeAll(async () => {
  browser = await theBrowser();
});

/** What the page about the trouble says, once it stands whole: what happened, what is safe, what to do. */
async function matter(page: Page): Promise<string> {
  await page.getByRole('heading', { level: 1 }).waitFor();
  expect(await page.getByRole('heading', { level: 2 }).allTextContents()).toEqual([
    'What happened',
    'What is safe',
    'What to do',
  ]);
  expect(await axe(page)).toEqual([]);
  return (await page.getByRole('heading', { level: 1 }).textContent()) ?? '';
}

/** The rows of a file, or its bytes where it has none that can be read. */
function held(file: string): unknown {
  try {
    return rowsOfFile(file);
  } catch {
    return readFileSync(file, 'latin1');
  }
}

describe('a file that cannot be opened as a book', () => {
  const file = tempFile();
  const whole = () => {
    const sqlite = new Database(file);
    sqlite.pragma('journal_mode = DELETE');
    return sqlite;
  };
  let server: Server;

  beforeAll(async () => {
    writeFileSync(file, 'Dear members, the sale is on the last Saturday of February. '.repeat(99));
    server = await startServer({ bookFile: file, openLine: false });
  });
  afterAll(() => server?.stop());

  /** The same server looks again each time somebody asks. */
  const ways: readonly (readonly [string, string, () => void])[] = [
    ['is some other file', 'There is no book to open.', () => undefined],
    [
      'is of a newer version',
      'This book is from a newer version of the program.',
      () => {
        writeFileSync(file, '');
        openBook(file, { create: true }).close();
        const sqlite = whole();
        sqlite.exec("INSERT INTO __drizzle_migrations (hash, created_at) VALUES ('later', 9999999999999)");
        sqlite.close();
      },
    ],
    [
      'has its list of tables damaged',
      'The book’s file is damaged: nothing is written.',
      () => {
        const bytes = readFileSync(file).fill(0xff, 100, 4096);
        writeFileSync(file, bytes);
      },
    ],
    [
      'could not be brought up to date',
      'The book could not be brought up to date.',
      () => {
        writeFileSync(file, '');
        openBook(file, { create: true }).close();
        const sqlite = whole();
        sqlite.exec('DELETE FROM __drizzle_migrations');
        // The last table that the update makes is in the way: everything before it has been done by then.
        const others =
          "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT IN ('worker', '__drizzle_migrations')";
        for (const name of sqlite.prepare(others).pluck().all()) sqlite.exec(`DROP TABLE "${name}"`);
        sqlite.close();
      },
    ],
  ];

  it.each(ways)('because it %s, has a page that says so, and nothing is written', async (_, title, bring) => {
    bring();
    const before = held(file);
    const page = await newPage(browser, { viewport: { width: 375, height: 700 } });
    // Where no book says what the hall may call this machine, its own names lead to the page.
    await page.goto(server.url);
    await page.waitForURL(/\/trouble$/);
    expect(await matter(page)).toBe(title);
    const entry = await fetch(`${server.url}/api/commands/person.enrol`, {
      method: 'POST',
      headers: { ...FROM_A_TABLE, 'idempotency-key': 'a-bad-day-1', origin: server.url },
      body: '{"name":"Dee Elm"}',
    });
    // No refusal: the entry waits in the browser that sent it.
    expect(entry.status).toBe(503);
    expect(held(file)).toEqual(before);
    // However many look, an update that failed is not tried anew each time.
    expect(readdirSync(dirname(file)).filter((name) => /before-update.*book$/.test(name)).length).toBeLessThan(2);
  });

  it('is served as soon as a book stands there', async () => {
    writeFileSync(file, '');
    // An empty file may be what is left of one: nothing is made of it.
    expect((await fetch(`${server.url}/board`, { redirect: 'manual' })).status).toBe(307);
    expect(readFileSync(file)).toHaveLength(0);
    openBook(file, { create: true }).close();
    expect((await fetch(`${server.url}/board`)).status).toBe(200);
  });
});

describe('a disk that is full, and then locked', () => {
  const folder = tempFolder('small');
  const bookFile = join(folder, 'sale.book');
  const isRoot = process.getuid?.() === 0;
  const mount = (...words: string[]) => spawnSync('mount', words).status === 0;
  const mounted = isRoot && mount('-t', 'tmpfs', '-o', 'size=3m', 'tmpfs', folder);
  let server: Server;
  let token = '';

  beforeAll(async () => {
    if (!mounted) console.log('No small disk could be mounted here: the book lies on the usual one.');
    fillSellingBook(bookFile, { lots: 3 }).close();
    token = workerIn(bookFile, 'Ada').token;
    server = await startServer({ bookFile });
  });
  afterAll(async () => {
    await server?.stop();
    if (mounted) spawnSync('umount', ['-l', folder]);
  });

  async function staffPage(path: string): Promise<Page> {
    const page = await newPage(browser, { expected: [/50[03]/] });
    await page.context().addCookies([{ name: 'peltry-plain', value: token, url: server.hallUrl }]);
    await page.goto(`${server.hallUrl}${path}`);
    return page;
  }

  const give = (key: string, street: string) =>
    fetch(`${server.url}/api/commands/person.amend`, {
      method: 'POST',
      headers: {
        ...{ ...FROM_A_TABLE, 'idempotency-key': key, origin: server.url },
        cookie: `peltry-plain=${token}`,
      },
      body: JSON.stringify({ personId: 1, name: 'Ada Birch', street }),
    });

  async function fillUp(): Promise<number> {
    for (let n = 1; n <= 5000; n += 1) if (!(await give(`filling-up-${n}`, `${n} ${'x'.repeat(480)}`)).ok) return n;
    throw new Error('The disk took everything.');
  }

  it('can be read, takes nothing until a person says so, and then takes what waited', async () => {
    const page = await staffPage('/intake');
    // Where nothing can be mounted, the smallest book of all stands for a disk without room.
    const last = mounted ? await fillUp() : 0;
    if (!mounted) return expect((await give('filling-up-1', 'Mill Road')).status).toBe(200);
    // A smaller one would still fit; it waits as well.
    expect((await give('smaller-one', '')).status).toBe(503);
    // Said by the stream to whoever was there before.
    await page.getByRole('alert').getByText('The disk is full: nothing is written.').waitFor();
    const other = await staffPage('/till');
    expect((await fetch(`${server.url}/api/sign-in`, signIn(server.url))).status).toBe(403);
    await page.getByRole('link', { name: 'What to do' }).click();
    await page.waitForURL(/\/trouble$/);
    expect(await matter(page)).toBe('The disk is full: nothing is written.');
    const go = page.getByRole('button', { name: 'Let writing go on' });
    await go.click();
    await page.getByText('Not yet. The disk is full').waitFor();
    expect(mount('-o', 'remount,size=40m', folder)).toBe(true);
    await go.click();
    await page.getByRole('heading', { name: 'All is well.' }).waitFor();
    // The stream of before goes on, though the book was opened anew.
    await other.getByText('The disk is full: nothing is written.').waitFor({ state: 'detached' });
    expect((await give(`filling-up-${last}`, `${last} ${'x'.repeat(480)}`)).status).toBe(200);
  });

  it('can be read while it is locked, and nothing that was saved is lost', async () => {
    // A power cut leaves the write-ahead log, which must be read where nothing can be written, too.
    await server.kill();
    if (mounted) expect(mount('-o', 'remount,ro', folder)).toBe(true);
    await server.restart();
    const page = await staffPage('/till');
    if (!mounted) return;
    await page.getByRole('alert').getByText('The book cannot be written to.').waitFor();
    expect((await give('while-locked', 'Mill Road')).status).toBe(503);
    await page.getByRole('link', { name: 'What to do' }).click();
    await page.waitForURL(/\/trouble$/);
    expect(await matter(page)).toBe('The book cannot be written to.');
    expect(mount('-o', 'remount,rw', folder)).toBe(true);
    await page.getByRole('button', { name: 'Let writing go on' }).click();
    await page.getByRole('heading', { name: 'All is well.' }).waitFor();
    // The page still listens to the server, and would rightly complain that it broke off.
    await page.close();
    await server.kill();
    expect(verifyBook(bookFile)).toMatchObject({ ok: true, problems: [] });
    const book = openBook(bookFile);
    expect(lineWithKey(book, 'filling-up-1')).toBeDefined();
    book.close();
  });
});

describe('a book whose file is deleted while it is served', () => {
  it('takes nothing more, and the page about it names the copy that has everything', async () => {
    const bookFile = tempFile();
    fillSellingBook(bookFile, { lots: 3 }).close();
    const { token } = workerIn(bookFile, 'Ada');
    const server = await startServer({ bookFile });
    const enrol = (key: string) =>
      fetch(`${server.url}/api/commands/person.enrol`, {
        method: 'POST',
        headers: { ...FROM_A_TABLE, 'idempotency-key': key, origin: server.url, cookie: `peltry-plain=${token}` },
        body: JSON.stringify({ name: `Dee Elm ${key}` }),
      });
    const saved = await enrol('before-it-goes');
    expect(saved.status).toBe(200);
    const { line } = (await saved.json()) as { line: number };
    for (const beside of ['', '-wal', '-shm']) rmSync(`${bookFile}${beside}`);
    for (const key of ['after-it-went-1', 'after-it-went-2']) expect((await enrol(key)).status).toBe(503);
    const page = await newPage(browser, { viewport: { width: 375, height: 700 } });
    await page.context().addCookies([{ name: 'peltry-plain', value: token, url: server.url }]);
    await expect
      .poll(async () => {
        await page.goto(`${server.url}/trouble`);
        return page.textContent('main');
      })
      .toContain('in this copy');
    expect(await matter(page)).toBe('The book’s file is not in its place: nothing is written.');
    const folder = join(dirname(bookFile), 'backups');
    const [copy = ''] = readdirSync(folder).filter((name) => name.endsWith('.book'));
    expect(await page.textContent('main')).toContain(join(folder, copy));
    await page.getByRole('button', { name: 'Let writing go on' }).click();
    await page.getByText('Not yet. The book’s file is not in its place').waitFor();
    await page.close();
    await server.stop();
    expect(verifyBook(join(folder, copy))).toMatchObject({ ok: true, chain: { head: { seq: line } } });
  });
});

const signIn = (origin: string) => ({
  method: 'POST',
  headers: { ...FROM_A_TABLE, origin },
  body: JSON.stringify({ name: 'Ada', passphrase: 'not the right one' }),
});
