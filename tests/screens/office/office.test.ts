import { copyFileSync, readdirSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { logHead } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { accepted, giveTo, hallOf } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';
import { tempFile } from '#tests/support/temp.ts';

const bookFile = tempFile();
const PHONE = '555-0188';
let browser: Browser;
let server: Server;

beforeAll(async () => {
  const selling = fillSellingBook(bookFile, { lots: 3 });
  selling.must('outcome.record', { saleId: 1, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10, answered: [] });
  selling.close();
  const book = openBook(bookFile);
  closeSale(hallOf(book, 1), 1);
  hallOf(book, 1).must('person.amend', { personId: 1, name: 'Ada Birch', phone: PHONE });
  // As an entry of a laptop whose clock was years ahead.
  giveTo(book, 'person.enrol', { input: { name: 'Late Comer' }, at: '2031-01-01T10:00:00Z' });
  book.close();
  server = await startServer({ bookFile });
  browser = await theBrowser();
});

afterAll(async () => {
  await server?.stop();
});

async function open(path: string): Promise<Page> {
  const page = await newPage(browser, { viewport: { width: 320, height: 700 } });
  await page.goto(`${server.hallUrl}${path}`);
  return page;
}

const wide = (page: Page) => page.evaluate(() => document.documentElement.scrollWidth - innerWidth);

describe('the office', () => {
  it('is told that the clock is behind the newest entry', async () => {
    const page = await open('/office/people?find=ada');
    await page
      .getByText(/The clock of the laptop says .* and the newest entry is of Jan 1, 2031, 10:00 AM UTC/)
      .waitFor();
  });

  it('says how few may stand behind a published price, and the price pages follow at once', async () => {
    const page = await open('/office/prices');
    const shown = async () =>
      ((await (await fetch(`${server.url}/prices`)).text()).match(/brought [\d.]+/) ?? []).length;
    await page.getByText('Now: at least 3 sellers and 3 buyers in a season, unless you say otherwise.').waitFor();
    await page.getByText('Saved').waitFor();
    expect(await shown()).toBe(0);
    const fewest = page.getByLabel('Fewest sellers, and fewest buyers');
    await fewest.fill('none');
    await fewest.press('Enter');
    await page.getByText('Enter how many as a whole number.').waitFor();
    expect(await fewest.inputValue()).toBe('none');
    await fewest.fill('1');
    await fewest.press('Enter');
    await page.getByText('Now: at least 1 seller and 1 buyer in a season.').waitFor();
    expect(await shown()).toBe(1);
  });

  it('backs the book up at one press, and the copy proves itself', async () => {
    const page = await open('/office/backups');
    await page.getByText('There is no backup here yet.').waitFor();
    await page.getByRole('button', { name: 'Back up now' }).click();
    await page.getByText('Everything that was entered is in it.').waitFor();
    expect(await wide(page)).toBeLessThanOrEqual(0);
    const folder = join(dirname(bookFile), 'backups');
    const [copy] = readdirSync(folder).filter((name) => name.endsWith('.book'));
    expect(verifyBook(join(folder, copy ?? ''))).toMatchObject({ ok: true, problems: [] });
  });

  it('reads the log by person, and proves it at one press', async () => {
    const page = await open('/office/log?person=1');
    await page
      .getByRole('row', { name: /Ada Birch/ })
      .first()
      .waitFor();
    expect(await page.getByRole('row', { name: /Late Comer/ }).count()).toBe(0);
    const csv = await fetch(`${server.url}/api/office/log?person=1`).then((answer) => answer.text());
    expect(csv).toContain(PHONE);
    await page.getByRole('button', { name: 'Verify the log' }).click();
    const book = openBook(bookFile);
    const { seq, hash } = logHead(book);
    book.close();
    const said = page.getByText(`Its head is line ${seq}, ${hash.slice(0, 16)}.`);
    await said.waitFor();
    expect(await said.textContent()).toMatch(/^The book is whole/);
  });

  it('gives out what is kept about a person, and removes how they are reached', async () => {
    const page = await open('/office/people');
    await page.getByLabel('Name, member number or phone').fill('Ada Birch');
    await page.getByRole('button', { name: 'Find' }).click();
    const card = page.getByRole('region', { name: 'Ada Birch' });
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      card.getByRole('link', { name: 'Everything as JSON' }).click(),
    ]);
    expect(file.suggestedFilename()).toBe('person-1.json');
    await card.getByRole('button', { name: 'Remove contact data' }).click();
    await card.getByText('Say why in a few words, such as: typed twice.').waitFor();
    await card.getByLabel('Why Ada Birch is removed').fill('Asked by letter');
    await card.getByRole('button', { name: 'Remove contact data' }).click();
    await card.getByText('The contact data is removed.').waitFor();
    const kept = await fetch(`${server.url}/api/office/person?person=1`).then((answer) => answer.text());
    expect(kept).toContain('Ada Birch');
    expect(kept).not.toContain(PHONE);
    expect(verifyBook(bookFile)).toMatchObject({ ok: true, problems: [] });
  });

  it('says loudly that a backup has entries which the book has lost, also once the book went on', async () => {
    const folder = join(dirname(bookFile), 'backups');
    const backUp = async () => {
      const headers = { 'content-type': 'application/json', 'x-station': 'office', origin: server.url };
      const answer = await fetch(`${server.url}/api/office/backup`, { method: 'POST', headers, body: '{}' });
      expect(await answer.json()).toMatchObject({ ok: true });
      return (
        readdirSync(folder)
          .filter((name) => name.endsWith('.book'))
          .at(-1) ?? ''
      );
    };
    const enrol = (...names: string[]) => {
      const book = openBook(bookFile);
      for (const name of names) accepted(giveTo(book, 'person.enrol', { input: { name }, key: `enrolled ${name}` }));
      book.close();
    };
    const whole = await backUp();
    enrol('Una', 'Vic', 'Wes', 'Xia', 'Yun');
    const ahead = await backUp();
    // What the write-ahead log held is gone, and the file is as it was before.
    await server.kill();
    for (const beside of ['-wal', '-shm']) rmSync(`${bookFile}${beside}`, { force: true });
    copyFileSync(join(folder, whole), bookFile);
    await server.restart();

    const page = await open('/office/backups');
    const notice = page.getByRole('alert').filter({ hasText: ahead });
    await notice.waitFor();
    expect(await notice.textContent()).toMatch(/has 5 entries that the book does not: .*Do not go on entering/);
    expect(await notice.textContent()).toContain('restore this backup');
    expect(await page.getByText('Everything that was entered is in it.').count()).toBe(0);
    expect(await axe(page)).toEqual([]);
    expect(await wide(page)).toBeLessThanOrEqual(0);

    const matter = await (await fetch(`${server.url}/trouble`)).text();
    expect(matter).toContain('The book lacks 5 entries that the backup ');
    expect(matter).toContain(`restore ${join(folder, ahead)} --book ${bookFile}`);

    // Said where people look first, too.
    for (const path of ['/', '/office']) {
      const first = await open(path);
      await first.getByRole('alert').filter({ hasText: ahead }).waitFor();
      await first.close();
    }

    enrol('Zoe', 'Abe', 'Bob', 'Cyd', 'Dee', 'Eli');
    await backUp();
    await page.reload();
    await notice.waitFor();
    expect(await notice.textContent()).toMatch(/5 entries .*The book has 6 entries that this backup does not/);
    expect(await page.getByText('Everything that was entered is in it.').count()).toBe(0);
  });
});
