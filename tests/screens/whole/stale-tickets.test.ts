/** Tickets of lots that were divided or joined since they were printed, scanned at every station. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openBlock, untilCursorIn } from '#tests/screens/support/block.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { raw } from '#tests/screens/support/http.ts';
import { openHall } from '#tests/support/hall.ts';

/** Lot 1 was divided into 1A and 1B, and lot 3 joined to lot 2; 1A is buyer 10's. */
const house = testHouse((file) => {
  const { book, must, saleId } = openHall({ file });
  const [first, second] = ['10', '4', '6'].map((count) => {
    return must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count }).lotId;
  });
  must('lot.divide', { lotId: first ?? 0, parts: [{ count: '6' }, { count: '4' }] });
  must('lot.join', { lotId: second ?? 0, other: '3' });
  must('outcome.record', { saleId, lotNo: '1A', kind: 'sold', price: '8.00', buyerNo: 10 });
  book.close();
});

const TICKETS = [
  ['1', 'Lot 1 was divided into 1A and 1B.'],
  ['3', 'Lot 3 was joined to lot 2.'],
] as const;

/** As a scanner does it: the text of the code, then Enter. */
async function scan(page: Page, lotNo: string): Promise<void> {
  await page.keyboard.type(`S1LOT${lotNo}`);
  await page.keyboard.press('Enter');
}

describe.each(TICKETS)('the ticket of lot %s, scanned', (lotNo, became) => {
  it('at Intake leads to what became of it', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/intake`);
    await page.getByText('Saved').waitFor();
    await scan(page, lotNo);
    await page.getByRole('heading', { name: became }).waitFor();
    await page.getByRole('link', { name: lotNo === '1' ? 'Lot 1B' : 'Lot 2', exact: true }).click();
    await page.getByRole('heading', { name: lotNo === '1' ? 'Lot 1B' : 'Lot 2', exact: true }).waitFor();
  });

  it('at the Block says so at once, and the next ticket takes its place', async () => {
    const page = await newPage(house.browser);
    await openBlock(page, house.server.hallUrl);
    await scan(page, lotNo);
    await page.locator('.field-error', { hasText: became }).waitFor();
    await scan(page, '1A');
    await page.getByRole('heading', { name: 'Put lot 1A right' }).waitFor();
  });

  it('on a left bid says so, and a good ticket is a lot number', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/block/left`);
    await page.getByText('Saved').waitFor();
    await page.getByLabel('Buyer number').focus();
    await page.keyboard.type('11');
    await page.keyboard.press('Enter');
    await scan(page, lotNo);
    await page.keyboard.type('5.00');
    await page.keyboard.press('Enter');
    await page.locator('.field-error', { hasText: became }).waitFor();
    await page.getByLabel('Lot number').fill('');
    await scan(page, '2');
    await page.keyboard.press('Enter');
    await page.getByText('Taken down: buyer 11 on lot 2 up to 5.00.').waitFor();
  });

  it('at the Till says so, where a part leads to its buyer', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/till`);
    await page.getByText('Saved').waitFor();
    await scan(page, lotNo);
    await page.locator('.field-error', { hasText: became }).waitFor();
    await page.getByLabel('Buyer number').fill('');
    await scan(page, '1A');
    await page.waitForURL(/\/till\/10\?/);
  });

  it('at the hand-over says so and ticks nothing', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/till/10/hand-over?sale=1`);
    await page.getByText('Saved').waitFor();
    await untilCursorIn(page, 'Scan a ticket, or type a lot number');
    await scan(page, lotNo);
    await page.locator('.field-error', { hasText: became }).waitFor();
    expect(await page.getByText('0 of 1 ticked').count()).toBe(1);
    await scan(page, '1A');
    await page.getByText('1 of 1 ticked').waitFor();
  });

  it('where tickets are printed again, and on the paper itself, leads on too', async () => {
    const { url } = house.server;
    expect((await raw(`${url}/intake/tickets?sale=1&lot=${lotNo}`)).text).toContain(became);
    expect((await raw(`${url}/api/papers/tickets?sale=1&lot=${lotNo}&stock=halves`)).text).toContain(became);
  });
});
