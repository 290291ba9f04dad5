import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { logHead } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { ACTS, follow } from '#tests/screens/support/follow.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { chaptersOf, type Step } from '#tests/support/guide-steps.ts';
import { tempFile } from '#tests/support/temp.ts';
import { read } from '#tests/tidy/tree.ts';

/**
 * A stranger with the guide in hand: an empty book, and docs/first-sale.md, whose numbered lines are carried out one by
 * one. Between two chapters the test looks at what the guide does not say. The sums in the guide are worked by hand.
 */
const house = testHouse();
const CHAPTERS = chaptersOf(read('docs/first-sale.md'));
/** The titles of the chapters in the order in which they were carried out. */
const done: string[] = [];
/** What the guide's reader is signed in with, carried from chapter to chapter. */
let signedIn: Awaited<ReturnType<ReturnType<Page['context']>['storageState']>> | undefined;

function steps(title: string): readonly Step[] {
  const chapter = CHAPTERS.find((one) => one.title === title);
  if (!chapter || chapter.steps.length === 0) throw new Error(`The guide has no chapter “${title}” with steps.`);
  return chapter.steps;
}

async function reader(): Promise<Page> {
  const page = await newPage(house.browser, signedIn ? { storageState: signedIn } : {});
  return page;
}

type Stop = readonly [before: number, look: () => Promise<void>];

/** Carries out a chapter of the guide; stops before some of its steps, to look at what the guide does not say. */
async function carryOut(page: Page, title: string, stops: readonly Stop[] = []): Promise<void> {
  const all = steps(title);
  let from = 0;
  for (const [before, look] of stops) {
    await follow(page, house.server.url, all.slice(from, before));
    await look();
    from = before;
  }
  await follow(page, house.server.url, all.slice(from));
  signedIn = await page.context().storageState();
  done.push(title);
}

function linesInLog(): number {
  const book = openBook(house.bookFile);
  const { seq } = logHead(book);
  book.close();
  return seq;
}

/** The words of a seller's printed sheet. */
async function sheetOf(page: Page, seller: number): Promise<string> {
  const paper = await page.request.get(`${house.server.url}/api/papers/sheets?sale=1&seller=${seller}`);
  expect(paper.headers()['content-type']).toBe('application/pdf');
  const pdf = tempFile('.pdf');
  writeFileSync(pdf, await paper.body());
  return execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' }).normalize('NFC');
}

async function refusesPrices(page: Page): Promise<void> {
  const price = page.locator('input[name=price]');
  await price.and(page.locator(':focus')).waitFor();
  const before = linesInLog();
  for (const wrong of ['1e3', 'NaN', '-1', '0.005', '0']) {
    await price.fill(wrong);
    await price.press('Enter');
    await page.locator('.field-error, [role=alert]').first().waitFor();
    expect(await price.inputValue()).toBe(wrong);
    await price.fill('');
  }
  expect(linesInLog()).toBe(before);
}

/** A lot that does not exist, and a second sale of a sold one. */
async function refusesOutcomes(page: Page): Promise<void> {
  await page.locator('.saved-mark [data-tone=done]').waitFor();
  const before = linesInLog();
  const sell = async (lotNo: string) => {
    const data = { saleId: 1, lotNo, kind: 'sold', price: '5.00', buyerNo: 1 };
    const key = `first-sale-again-${lotNo}`;
    const headers = { 'idempotency-key': key, 'x-station': 'block', origin: house.server.url };
    return (await page.request.post(`${house.server.url}/api/commands/outcome.record`, { data, headers })).json();
  };
  const none = { code: 'unknown', field: 'lotNo', detail: expect.stringContaining('ticket') };
  expect(await sell('99')).toMatchObject(none);
  const sold = { code: 'already', detail: expect.stringContaining('sold to buyer 1 at 7.25') };
  expect(await sell('1')).toMatchObject(sold);
  expect(linesInLog()).toBe(before);
}

describe('the first sale, by the guide alone', () => {
  it('sets up an empty book', async () => {
    const page = await reader();
    await carryOut(page, 'Setting up');
    expect(await axe(page)).toEqual([]);
  });

  it('checks in three sellers, and holds the bobcat until its tags are right', async () =>
    carryOut(await reader(), 'The check-in table'));

  it('registers two buyers', async () => carryOut(await reader(), 'The buyers'));

  it('calls twelve lots, and refuses every price that is none with the typed text kept', async () => {
    const page = await reader();
    const all = steps('The Block');
    await carryOut(page, 'The Block', [
      [all.findIndex(({ does }) => does === 'type'), () => refusesPrices(page)],
      [all.findLastIndex(({ does }) => does === 'open'), () => refusesOutcomes(page)],
    ]);
  });

  it('takes the buyers’ money and hands the lots over', async () => carryOut(await reader(), 'The Till'));

  it('pays the sellers to the cent, on paper too', async () => {
    const page = await reader();
    await carryOut(page, 'Payout');
    expect(await axe(page)).toEqual([]);
    const first = await sheetOf(page, 1);
    for (const words of ['Orla Finch', '490.25', '29.42', '4.46', '454.83', 'US-CITES WY BOB 2026 000102']) {
      expect(first).toContain(words);
    }
    const second = await sheetOf(page, 2);
    for (const words of ['Łucja Żak', 'Cy Wren', '50.25', '447.25', '298.17', '149.08'])
      expect(second).toContain(words);
  });

  it('closes at zero', async () => carryOut(await reader(), 'Closing at zero'));

  it('leaves no chapter of the guide out, and has no kind of action that the guide does not ask for', () => {
    const chapters = CHAPTERS.filter(({ steps: all }) => all.length > 0);
    expect(chapters.map(({ title }) => title)).toEqual(done);
    const asked = new Set(chapters.flatMap(({ steps: all }) => all.map(({ does }) => does)));
    expect([...asked].sort()).toEqual(Object.keys(ACTS).sort());
  });
});
