import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { logHead } from '#db/log.ts';
import { openBook } from '#db/open.ts';
import { tempFile } from '#tests/support/temp.ts';
import { axe } from './support/axe.ts';
import { callLot, openBlock, untilSaved, untilUp } from './support/block.ts';
import { newPage } from './support/browser.ts';
import { testHouse } from './support/house.ts';

/**
 * A seller's whole way in one book that begins empty: the sale is planned, the seller checked in with three lots, one of
 * them held until its tags are right, the hammer falls, and the printed sheet has the right cents. Each step stands on
 * the one before.
 */

const house = testHouse();

const field = (page: Page, label: string) => page.getByLabel(label, { exact: true });
const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });

function linesInLog(): number {
  const book = openBook(house.bookFile);
  const { seq } = logHead(book);
  book.close();
  return seq;
}

/** The Till has no screen yet, so its commands come over the wire. */
async function give(page: Page, command: string, input: object): Promise<Record<string, unknown>> {
  const headers = {
    'idempotency-key': `first-sale-${command.replace('.', '-')}`,
    'x-station': 'till',
    origin: house.server.url,
  };
  const answer = await page.request.post(`${house.server.url}/api/commands/${command}`, { data: input, headers });
  const body = (await answer.json()) as { ok: boolean; value: Record<string, unknown> };
  expect(body.ok).toBe(true);
  return body.value;
}

async function addLot(page: Page, lot: Readonly<Record<string, string>>): Promise<void> {
  for (const [label, text] of Object.entries(lot)) {
    // A box that finds things has a list of the same name.
    await page.locator('input:visible').and(field(page, label)).fill(text);
    if (label === 'Goods') await page.keyboard.press('Enter');
  }
  await page.keyboard.press('Control+Enter');
}

async function setTags(page: Page, tags: string): Promise<void> {
  const form = page.getByRole('form', { name: 'Tags of lot 3' });
  await form.getByLabel('Export tags').fill(tags);
  await form.getByRole('button', { name: 'Save the tags' }).click();
}

describe('the first sale of an empty book', () => {
  it('is planned on the sale page', async () => {
    const page = await newPage(house.browser);
    await page.goto(house.server.url);
    await field(page, 'Association').fill('Lantern Ridge Fur Harvesters');
    await button(page, 'Go on').click();
    await field(page, 'Name of the sale').fill('Winter Sale');
    await field(page, 'Held on').fill('2026-02-28');
    await field(page, 'Season').fill('2025-26');
    await field(page, 'State').fill('US-WY');
    await button(page, 'Go on').click();
    await page.getByText('Step 3 of 5').waitFor();
    await button(page, 'Go on').click();
    await button(page, 'Plan the sale').click();
    await button(page, 'Open the intake').click();
    await button(page, 'Start the sale').waitFor();
    expect(await axe(page)).toEqual([]);
  });

  it('takes a member in, lots the goods, and holds the bobcat until its tags are right', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.url}/intake`);
    await page.getByRole('combobox', { name: 'Who is at the table?' }).fill('Łucja Żak');
    await page.getByRole('option', { name: /as a new person/ }).click();
    await field(page, 'Licence number').fill('L2');
    await field(page, 'Licence of').fill('US-WY');
    await field(page, 'Licence expires').fill('2026-12-31');
    await field(page, 'Dues paid until').fill('2026-12-31');
    await button(page, 'Enrol').click();
    await page.getByRole('form', { name: 'Give a seller number' }).locator('button[type=submit]').click();
    await page.waitForURL(/intake\/seller\/1\?/);

    await addLot(page, { Goods: 'rac', Pieces: '12' });
    await page.getByText('1 lot so far').first().waitFor();
    await addLot(page, { Goods: 'opo', Pieces: '1' });
    await page.getByText('2 lots so far').first().waitFor();
    await addLot(page, { Goods: 'bob', Pieces: '3', 'Export tags': 'US-CITES WY BOB 2025 000101' });
    await page.getByText('3 lots so far').first().waitFor();
    const state = page.locator('tr', { hasText: 'Bobcat' }).locator('.lot-state');
    expect(await state.textContent()).toMatch(/on hold[\s\S]*3 pieces and 1 good export tag/i);

    await button(page, 'Tags of lot 3').click();
    const before = linesInLog();
    await setTags(page, 'US-CITES WY BOB 2025 000101, US-CITES WY BOB 2025 000101');
    await expect.poll(() => page.getByRole('form', { name: 'Tags of lot 3' }).textContent()).toMatch(/entered twice/);
    expect(linesInLog()).toBe(before);
    await setTags(page, 'US-CITES WY BOB 2025 000101-000103');
    await expect.poll(() => state.textContent()).not.toMatch(/on hold/i);
  });

  it('calls the lots, and refuses every price that is none with the typed text kept', async () => {
    const page = await newPage(house.browser);
    const bidder = await give(page, 'person.enrol', { name: 'Hollis Quill' });
    await give(page, 'buyer.register', { saleId: 1, buyerNo: 10, personId: bidder.personId, cleared: true });
    await page.goto(house.server.url);
    await button(page, 'Start the sale').click();
    await button(page, 'Settle the sale').waitFor();

    await openBlock(page, house.server.url);
    await untilUp(page, 1);
    const before = linesInLog();
    for (const wrong of ['12,5', '1e3', 'NaN', '-1', '0.005', '0']) {
      const price = page.locator('input[name=price]');
      await price.fill(wrong);
      await price.press('Enter');
      await page.locator('.field-error, [role=alert]').first().waitFor();
      expect(await price.inputValue()).toBe(wrong);
      await price.fill('');
    }
    expect(linesInLog()).toBe(before);
    await callLot(page, '7.75', '10');
    await untilUp(page, 2);
    await callLot(page, '0.35', '10');
    await page.getByText('Is this price right?').waitFor();
    await page.keyboard.press('Enter');
    await untilUp(page, 3);
    await callLot(page, '112.75', '10');
    await untilSaved(page);
    await expect.poll(linesInLog).toBe(before + 3);
  });

  it('prints the sheet with the right cents', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.url}/payout`);
    await page.getByRole('link', { name: '1', exact: true }).click();
    await page.getByRole('heading', { name: 'Settlement sheet, seller 1' }).waitFor();
    expect(await axe(page)).toEqual([]);
    await button(page, 'Issue the sheet').click();
    await page.getByText('Sheet 1', { exact: true }).waitFor();
    const paper = await page.request.get(`${house.server.url}/api/papers/sheets?sale=1&seller=1`);
    expect(paper.headers()['content-type']).toBe('application/pdf');
    const pdf = tempFile('.pdf');
    writeFileSync(pdf, await paper.body());
    const text = execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' }).normalize('NFC');
    // 12 × 7.75 = 93.00, 6 % 5.58; 0.35, 6 % 0.02; 3 × 112.75 = 338.25, 6 % 20.295 half up 20.30; number 5.00.
    for (const words of [
      'Łucja Żak',
      '93.00',
      '5.58',
      '0.35',
      '0.02',
      '338.25',
      '20.30',
      '431.60',
      '25.90',
      '400.70',
    ]) {
      expect(text).toContain(words);
    }
    expect(text).toContain('US-CITES WY BOB 2025 000102');
  });

  it('refuses a lot that does not exist and a second sale of a sold one', async () => {
    const page = await newPage(house.browser);
    const before = linesInLog();
    const sell = async (lotNo: string) => {
      const data = { saleId: 1, lotNo, kind: 'sold', price: '5.00', buyerNo: 10 };
      const headers = {
        'idempotency-key': `first-sale-again-${lotNo}`,
        'x-station': 'block',
        origin: house.server.url,
      };
      return (await page.request.post(`${house.server.url}/api/commands/outcome.record`, { data, headers })).json();
    };
    expect(await sell('99')).toMatchObject({
      code: 'unknown',
      field: 'lotNo',
      detail: expect.stringContaining('ticket'),
    });
    expect(await sell('1')).toMatchObject({
      code: 'already',
      detail: expect.stringContaining('sold to buyer 10 at 7.75'),
    });
    expect(linesInLog()).toBe(before);
  });
});
