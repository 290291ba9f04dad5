import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axe } from '#tests/screens/support/axe.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { intakeHall } from '#tests/screens/support/intake.ts';
import { paperAt, paperBehind } from '#tests/screens/support/papers.ts';

const house = testHouse((bookFile) => {
  const { must, book } = intakeHall(bookFile);
  must('sale.stage', { saleId: 1, stage: 'selling', reason: '' });
  book.close();
});

/** A scanner is a keyboard that types fast and ends with Enter. */
async function scan(page: Page, ticket: string): Promise<void> {
  await page.keyboard.type(ticket);
  await page.keyboard.press('Enter');
}

async function atIntake(page: Page): Promise<void> {
  await page.goto(`${house.server.hallUrl}/intake`);
  await page.getByText('Saved').waitFor();
  await page.waitForFunction(() => document.activeElement?.getAttribute('role') === 'combobox');
}

describe('a ticket scanned', () => {
  it('at the check-in table opens its lot', async () => {
    const page = await newPage(house.browser);
    await atIntake(page);
    await scan(page, 'S1LOT2');
    await page.getByRole('heading', { name: 'Lot 2', exact: true }).waitFor();
    expect(new URL(page.url()).pathname).toBe('/intake/lot/2');
  });

  it('of another sale opens nothing, and says what to do', async () => {
    const page = await newPage(house.browser);
    await atIntake(page);
    await scan(page, 'S7LOT2');
    await page.getByText('This ticket is of another sale').waitFor();
    expect(await page.getByRole('combobox', { name: 'Who is at the table?' }).inputValue()).toBe('S7LOT2');
    expect(new URL(page.url()).pathname).toBe('/intake');
  });

  it('at the Block puts its lot up at once', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/block`);
    await page.waitForFunction(() => document.activeElement?.getAttribute('name') === 'price');
    await page.locator('.saved-mark').waitFor();
    await scan(page, 's1lot2');
    await expect.poll(() => page.locator('.lot-up-number').textContent()).toMatch(/2$/);
    await page.waitForFunction(() => document.activeElement?.getAttribute('name') === 'price');
    expect(await page.locator('input[name=price]').inputValue()).toBe('');
  });
});

describe('the papers of the check-in table', () => {
  it('are at the seller’s lots: the receipt, and the tickets on the labels that are left', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/intake/seller/9`);
    const receipt = await paperBehind(page, /receipt/);
    expect(receipt).toContain('Receipt of goods');
    expect(receipt).toContain('Dot Ebner');
    expect(receipt).toContain('2 lots, 4 pieces');
    await page.getByRole('link', { name: 'Print tickets' }).click();
    await page.getByText('Seller 9: 2 lots, 1 to 2.').waitFor();
    expect(await axe(page)).toEqual([]);
    await page.getByLabel('First label').fill('31');
    await page.getByLabel('Down, mm').fill('-0,5');
    await page.getByRole('button', { name: 'Print 2 tickets' }).click();
    await page.getByText('Enter the first label that is still on the sheet').waitFor();
    await page.getByText('Use a point, not a comma: 1.5.').waitFor();
    expect(await page.getByLabel('First label').inputValue()).toBe('31');
    await page.getByLabel('First label').fill('5');
    await page.getByLabel('Down, mm').fill('-0.5');
    const asked = page.context().waitForEvent('request', (request) => request.url().includes('/api/papers/tickets'));
    await page.getByRole('button', { name: 'Print 2 tickets' }).click();
    const address = new URL((await asked).url());
    const typed = Object.fromEntries(address.searchParams);
    expect(typed).toEqual({ sale: '1', seller: '9', start: '5', right: '', down: '-0.5', stock: 'labels' });
    const tickets = await paperAt(page, `${address.pathname}${address.search}`);
    for (const words of ['Raccoon', 'Bobcat', 'Minimum 8.00 each', 'GREEN', 'wear gloves'])
      expect(tickets).toContain(words);
    await page.reload();
    await expect.poll(() => page.getByLabel('Down, mm').inputValue()).toBe('-0.5');
  });

  it('are at the lot, at the lots on hold and beside the queue', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/intake/lot/2`);
    await page.getByRole('link', { name: 'Print its ticket' }).click();
    await page.getByText('The ticket of lot 2.').waitFor();
    await page.goto(`${house.server.hallUrl}/intake`);
    const list = await paperBehind(page, /Sale list/);
    for (const row of ['1 Raccoon green 3 pieces 9', '2 Bobcat 1 piece 9 on hold']) expect(list).toContain(row);
    await page.goto(`${house.server.hallUrl}/intake/holds`);
    expect(await paperBehind(page, /tag list/)).toContain('1 lot on hold');
  });

  it('are refused where there is nothing of the kind, as a problem that says what to do', async () => {
    for (const [address, status, detail] of [
      ['tickets?sale=1&seller=77', 422, 'Seller number 77 has no lots'],
      ['tickets?sale=1&lot=99', 422, 'There is no lot 99'],
      ['tickets?sale=1&start=0', 422, 'Enter the first label'],
      ['tickets?sale=8', 404, 'There is no such sale'],
      ['receipt?sale=1&seller=77', 404, 'There is no such seller number'],
      ['results?sale=1', 404, 'No lot has been called yet'],
      ['bid-sheets?sale=1', 404, 'no lot open for bids'],
    ] as const) {
      const answer = await fetch(`${house.server.url}/api/papers/${address}`);
      const type = answer.headers.get('content-type');
      expect([address, answer.status, type]).toEqual([address, status, 'application/problem+json']);
      expect(((await answer.json()) as { detail: string }).detail).toContain(detail);
    }
  });
});
