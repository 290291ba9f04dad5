import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { axe } from '#tests/screens/support/axe.ts';
import { outcomesIn } from '#tests/screens/support/block.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { paperBehind } from '#tests/screens/support/papers.ts';
import { isSaid, refuseUnseen } from '#tests/screens/support/refused.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';

const house = testHouse((bookFile) => {
  fillSellingBook(bookFile, { lots: 4, bidding: 'sealed' }).close();
});

/** The same with a lot that was withdrawn, a bid below the minimum of lot 3, and a closing time that is far away. */
const open = testHouse((bookFile) => {
  const { must, close } = fillSellingBook(bookFile, { lots: 5, bidding: 'sealed' });
  must('outcome.record', { saleId: 1, lotNo: '5', kind: 'withdrawn' });
  must('bid.leave', { saleId: 1, lotNo: '3', buyerNo: 10, kind: 'written', price: '7.50' });
  must('bids.closing', { saleId: 1, closesAt: '2099-03-01T18:00:00Z' });
  close();
});

describe('a sale whose bids have not closed', () => {
  it('offers no award, no answer of a seller and no no-sale, and refuses them, until the time is moved', async () => {
    const page = await newPage(open.browser);
    await page.goto(`${open.server.hallUrl}/block/written`);
    await page.getByText('Now: Taking bids').waitFor();
    const acts = page.getByRole('button', { name: /^(Award|Seller accepts|Seller keeps|No-sale)/ });
    expect(await acts.count()).toBe(0);
    expect(await axe(page)).toEqual([]);
    const given = async (command: string, data: object) => {
      const headers = {
        'idempotency-key': `early-${command.replace('.', '-')}`,
        'x-station': 'block',
        origin: open.server.url,
      };
      const answer = await page.request.post(`${open.server.url}/api/commands/${command}`, { data, headers });
      return (await answer.json()) as unknown;
    };
    const accepted = { saleId: 1, lotNo: '3', kind: 'sold', price: '7.50', buyerNo: 10, answered: ['below_minimum'] };
    expect(await given('outcome.record', accepted)).toMatchObject({
      code: 'wrong_stage',
      detail: expect.stringMatching(/^Bids close at .+\. Accept after that, or move the closing time\.$/),
    });
    expect(await given('bids.award', { saleId: 1 })).toMatchObject({ code: 'wrong_stage' });
    expect(outcomesIn(open.bookFile)).toHaveLength(1);
    await page.getByLabel('Bids close at').fill('2026-02-28T15:00');
    await page.getByRole('button', { name: 'Set the times' }).click();
    await page.getByText('Now: Closed').waitFor();
    await page.getByRole('button', { name: 'Award the lots' }).waitFor();
    expect(await page.getByRole('button', { name: /^Seller/ }).count()).toBe(0);
  });
});

async function give(page: Page, command: string, data: object): Promise<void> {
  const own = { 'x-station': 'block', origin: house.server.url };
  const headers = { 'idempotency-key': `written-${command.replace('.', '-')}`, ...own };
  const answer = await page.request.post(`${house.server.url}/api/commands/${command}`, { data, headers });
  expect(((await answer.json()) as { ok: boolean }).ok).toBe(true);
}

describe('a sale of written bids', () => {
  it('says why a closing time was not taken, also where that is about no field of the form', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/block/written`);
    await page.getByText('Saved').waitFor();
    const sentence = await refuseUnseen(page, 'bids.closing', 'stage');
    await page.getByLabel('Bids close at').fill('2026-02-28T15:00');
    await page.getByRole('button', { name: 'Set the times' }).click();
    await isSaid(page, sentence);
    expect(await page.getByLabel('Bids close at').inputValue()).toBe('2026-02-28T15:00');
  });

  it('goes through its phases by keys alone: sheets, closing, awarding, sellers, results', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/block`);
    await page.getByRole('link', { name: 'Enter the bid sheets' }).click();
    await page.getByRole('heading', { name: 'Written bids' }).waitFor();
    for (const [buyer, prices] of [
      ['10', ['9.25', '7.00', '7.50']],
      ['11', ['9.25', '7.25', '']],
    ] as const) {
      await page.getByLabel('Buyer number').fill(buyer);
      await page.keyboard.press('Enter');
      // Nobody looks up from the sheet: each price goes into its row, however late the answers come.
      for (const price of prices) {
        await page.keyboard.type(price);
        await page.keyboard.press('Enter');
      }
      for (const [at, price] of prices.entries())
        if (price !== '') await page.getByLabel(`Bid on lot ${at + 1}, now ${price}`).waitFor();
    }
    await page.getByText('Bids of buyer 11, Finn Gale').waitFor();
    expect(await axe(page)).toEqual([]);
    const sheets = await paperBehind(page, /bid sheet for each buyer/);
    for (const words of ['Buyer 10', 'Buyer 20', 'My bid']) expect(sheets).toContain(words);
    expect(await paperBehind(page, /blank bid sheet/)).toContain('Name and buyer number');
    // The clock: the sellers' time is over long before anybody clicks here, and the bids are closed by hand.
    await give(page, 'bids.closing', { saleId: 1, closesAt: null, answerBy: '2026-03-01T15:00:00Z' });
    const press = async (name: string) => {
      await page.getByRole('button', { name, exact: true }).focus();
      await page.keyboard.press('Enter');
    };
    await press('Close the bids');
    await press('Yes, close them');
    await page.getByText('Now: Closed').waitFor();
    expect(await axe(page)).toEqual([]);
    expect(outcomesIn(house.bookFile)).toEqual([]);
    await press('Award the lots');
    await page.getByText('Awarded: 2. Below the minimum: 1. Without a bid: 1.').waitFor();
    await page.getByText('Now: Sellers’ answers').waitFor();
    await press('Seller accepts the bid on lot 3');
    // The sellers' time is long over: the association says whether the answer counts.
    await page.getByText('The sellers’ time to accept a bid below the minimum ended on Mar 1, 2026').waitFor();
    expect(outcomesIn(house.bookFile)).toHaveLength(2);
    await press('The answer counts');
    await page.getByText('Now: Awarded').waitFor();
    await press('No-sale of lot 4');
    await page.getByText('Now: Results').waitFor();
    expect(await paperBehind(page, /results slip for each bidder/)).toMatch(/1 9\.25 .*won.* 2 7\.00 .*outbid/);
    expect(await paperBehind(page, /results for the wall/)).toContain('12 pieces 9.25 each 111.00 10');
    // Of two equal bids the earlier takes the lot.
    expect(outcomesIn(house.bookFile)).toMatchObject([
      { lotNumber: 1, priceCents: 925, buyerNo: 10 },
      { lotNumber: 2, priceCents: 725, buyerNo: 11 },
      { lotNumber: 3, priceCents: 750, buyerNo: 10 },
      { lotNumber: 4, kind: 'passed' },
    ]);
    expect(await axe(page)).toEqual([]);
  });
});
