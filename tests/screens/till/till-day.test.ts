/** A buyer's whole way at the till: registered, billed, paid in parts, handed over, with a purchase record to take home. */
import { readFileSync, writeFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { QUESTIONS } from '#lib/outcome/decide-outcome.ts';
import { checked, readBack } from '#tests/papers/support/pdf.ts';
import { newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { bobcatTag, openHall } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

const bookFile = tempFile();
const hall = openHall({ file: bookFile });
let browser: Browser;
let server: Server;

beforeAll(async () => {
  const { saleId, must } = hall;
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '12', section: 'Cold Fork' });
  must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '2', tags: [bobcatTag(1), bobcatTag(2)] });
  server = await startServer({ bookFile });
  browser = await theBrowser();
});

afterAll(async () => {
  await server?.stop();
  hall.book.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const owing = (page: Page) => page.locator('.sheet .figure-large').first().textContent();

async function paperBehind(page: Page, name: string) {
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('link', { name }).click()]);
  return { name: download.suggestedFilename(), path: await download.path() };
}

function textOf(path: string): string {
  const back = readBack(readFileSync(path));
  expect(checked(back)).toContain('No syntax or stream encoding errors found');
  return back.text;
}

/** What the browser itself gets there, as whoever is signed in. */
function bytesAt(page: Page, address: string): Promise<number[]> {
  return page.evaluate(async (path) => [...new Uint8Array(await (await fetch(path)).arrayBuffer())], address);
}

/** Follows a link between the pages of a buyer, and waits for its heading. */
async function goTo(page: Page, way: string, heading: RegExp) {
  await page.getByRole('navigation', { name: 'Buyer 13' }).getByRole('link', { name: way }).click();
  await page.getByRole('heading', { level: 1, name: heading }).waitFor();
}

describe('a buyer’s whole way', () => {
  it('from the register to the purchase record, with a correction and the drawer counted at the end', async () => {
    const { saleId, must } = hall;
    const page = await newPage(browser);
    await page.goto(`${server.hallUrl}/till/drawer`);
    // The drawer is opened with five twenties.
    await page.getByLabel('20', { exact: true }).fill('5');
    await expect.poll(() => page.locator('output').textContent()).toBe('100.00');
    await button(page, 'Open the drawer').click();
    await page.getByText('Recorded: 100.00 in cash.').waitFor();

    await page.goto(`${server.hallUrl}/till`);
    await page.getByRole('combobox', { name: 'Who wants to buy?' }).fill('Zoë Łącka');
    await page.getByRole('option', { name: /Enrol/ }).click();
    await button(page, 'Enrol').click();
    await page.getByLabel('Fur buyer’s licence').fill('FB-7');
    await page.getByLabel('Cleared to buy').check();
    await button(page, 'Give a buyer number').click();
    await page.getByText('Zoë Łącka is buyer 13.').waitFor();
    const asked = { answered: [...QUESTIONS] };
    must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 13, ...asked });
    must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '125.00', buyerNo: 13, ...asked });

    // 87.00 and 250.00, premium 4.35 and 12.50, 6.5 % of 353.85 (23.00025) make 376.85.
    await page.goto(`${server.hallUrl}/till/13`);
    await expect.poll(() => owing(page)).toBe('376.85');
    await goTo(page, 'Invoice', /^Invoice, buyer 13/);
    await button(page, 'Issue the invoice').click();
    await page.getByText('Invoice 1', { exact: true }).waitFor();
    const invoice = await paperBehind(page, 'Print the invoice');
    expect(textOf(invoice.path)).toMatch(/Invoice 1 · Issued .*Total 376\.85/);

    // The clerk had misheard: the correction shows before, after and the difference, and the old one stays.
    must('outcome.correct', { lotId: 1, replacesId: 1, kind: 'sold', price: '7.00', buyerNo: 13, reason: 'misheard' });
    await page.getByText('Corrects invoice 1').waitFor();
    await button(page, 'Issue the correction of invoice 1').click();
    await page.getByText('Invoice 2', { exact: true }).waitFor();
    const changed = page.getByRole('region', { name: 'What changed' }).getByRole('row', { name: /^Total/ });
    // 334.00, 16.70 and 22.80 (22.7955) make 373.50.
    expect(await changed.textContent()).toBe('Total376.85373.50-3.35');

    // Part in cash, with change, and part by check.
    await goTo(page, 'Account', /^Buyer 13/);
    await page.getByLabel('Amount taken').fill('100');
    await page.getByLabel('Cash given').fill('120');
    await button(page, 'Take the payment').click();
    await page.getByText(/That leaves .* due\. Take it as a part payment\?$/).waitFor();
    await button(page, 'Yes, take it').click();
    await page.getByText('100.00 taken. Change 20.00.').waitFor();
    await expect.poll(() => owing(page)).toBe('273.50');

    // Only what is paid goes: 83.50 × 1.05 × 1.065 is more than 100.00, so nothing does yet.
    await goTo(page, 'Hand over', /^Hand over to buyer 13/);
    await page.getByLabel('Scan a ticket, or type a lot number').fill(`S${saleId}LOT2`);
    await page.keyboard.press('Enter');
    await page.getByText('Lot 2 ticked: Bobcat, 2 pieces.').waitFor();
    await page.getByLabel('Pieces counted').fill('2');
    await button(page, 'Hand over').click();
    await page.getByText(/has paid 100\.00, and these lots with those taken before come to 279\.56/).waitFor();
    expect(await page.getByLabel('Pieces counted').inputValue()).toBe('2');

    await goTo(page, 'Account', /^Buyer 13/);
    await page.getByLabel('By', { exact: true }).selectOption('Check');
    await page.getByLabel('Reference').fill('1041');
    await button(page, 'Take the payment').click();
    await expect.poll(() => owing(page)).toBe('0.00');
    const kept = tempFile('receipt.pdf');
    writeFileSync(kept, Buffer.from(await bytesAt(page, '/api/papers/payment-receipt?payment=2')));
    expect(textOf(kept)).toMatch(/Payment 2 .*273\.50 USD.*By Check.*1041.*invoice 2/);

    await goTo(page, 'Hand over', /^Hand over to buyer 13/);
    await button(page, 'Tick all').click();
    await page.getByLabel('Pieces counted').fill('13');
    await button(page, 'Hand over').click();
    await page.getByText('You counted 13, and the lots ticked have 14').waitFor();
    await page.getByLabel('Pieces counted').fill('14');
    await button(page, 'Hand over').click();
    await page.getByText('2 lots handed over to Zoë Łącka.').waitFor();
    await page
      .getByText(/taken by Zoë Łącka/)
      .first()
      .waitFor();

    // The wrong bundle comes back, and goes out again.
    await page.getByText('A lot came back').click();
    await page.getByLabel('Which lot').selectOption('2');
    await page.getByLabel('Why it came back').fill('the wrong bundle');
    await button(page, 'Take it back').click();
    await page.getByLabel(/^Lot 2: Bobcat/).check();
    await page.getByLabel('Pieces counted').fill('2');
    await button(page, 'Hand over').click();
    await page.getByText('1 lot handed over to Zoë Łącka.').waitFor();

    // Tying the bundle cut a tag, and the officer at the door attached another.
    await page.getByText('A tag broke or was replaced').click();
    await page.getByLabel('What was found').selectOption('replaced');
    await page.getByLabel('Number of the replacement').fill('US-CITES FWS-REPL 001234');
    await page.getByLabel('Why', { exact: true }).fill('cut by the string');
    await button(page, 'Save what was found').click();
    await page.getByText('tag US-CITES WY BOB 2025 000001: saved.').waitFor();

    await goTo(page, 'Purchase record', /^Purchase record, buyer 13/);
    await page.getByText('US-CITES WY BOB 2025 000001').waitFor();
    const record = textOf((await paperBehind(page, 'Print the record')).path);
    for (const words of [
      'Ada Birch',
      'Taken in US-WY',
      '125.00 each',
      'US-CITES WY BOB 2025 000002',
      'FWS-REPL 001234',
      'Zoë Łącka',
    ]) {
      expect(record).toContain(words);
    }
    const csv = await paperBehind(page, 'Save it as CSV');
    expect(csv.name).toBe('purchase-record-1-buyer-13.csv');

    // 100.00 of float and 100.00 of cash: 195.00 counted is 5.00 short, and the check is there.
    await page.goto(`${server.hallUrl}/till/drawer`);
    await page.getByLabel('20', { exact: true }).fill('9');
    await page.getByLabel('5', { exact: true }).fill('3');
    await page.getByLabel('Checks').fill('273.50');
    await button(page, 'Record the count').click();
    await page.getByText('5.00 short').waitFor();
    expect(await page.getByText('even', { exact: true }).count()).toBe(1);
  });
});

describe('a kind that somebody brings after that invoice', () => {
  it('is added at the office and taken in at the table', async () => {
    const page = await newPage(browser);
    await page.goto(`${server.hallUrl}/sale/goods`);
    await page.locator('summary', { hasText: 'Other goods' }).click();
    const form = page.getByRole('form', { name: 'Other goods' });
    await form.getByLabel('Short name').fill('badger');
    await form.getByLabel('Name', { exact: true }).fill('Badger');
    await button(page, 'Add these goods').click();
    await form.locator('.field-error').waitFor();
    await form.getByLabel('Why is it changed?').fill('A seller brought one.');
    await button(page, 'Add these goods').click();
    await page.locator('summary', { hasText: 'Badger' }).waitFor();
    await page.goto(`${server.hallUrl}/intake/seller/1`);
    await page.getByRole('combobox', { name: 'Goods' }).fill('badg');
    await page.keyboard.press('Enter');
    await page.getByLabel('Pieces', { exact: true }).fill('1');
    await page.keyboard.press('Control+Enter');
    await page.getByText('3 lots so far').waitFor();
    const find = 'SELECT count FROM lot JOIN goods ON goods.id = goods_id WHERE goods = ?';
    expect(hall.book.sqlite.prepare(find).pluck().all('badger')).toEqual([1]);
  });
});
