/** Whose entry it is that waits in a browser: it goes in under no other name and into no other book. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { callLot, openBlock, outcomesIn, untilSaved, untilUp } from '#tests/screens/support/block.ts';
import { newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { raw } from '#tests/screens/support/http.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { startServer } from '#tests/screens/support/server.ts';
import { workerIn } from '#tests/screens/support/worker.ts';
import { tempFile } from '#tests/support/temp.ts';

const tokens = new Map<string, string>();

const house = testHouse((bookFile) => {
  fillSellingBook(bookFile, { lots: 20 }).close();
  for (const name of ['Ada', 'Bea']) tokens.set(name, workerIn(bookFile, name).token);
});

async function signIn(page: Page, name: string): Promise<void> {
  await page.context().addCookies([{ name: 'peltry-plain', value: tokens.get(name) ?? '', url: house.server.hallUrl }]);
}

/** Each lot that was called, and under whose name the log has it. */
function calledBy(): string[] {
  const book = openBook(house.bookFile);
  const rows = book.sqlite
    .prepare(`SELECT input ->> 'lotNo' || ' ' || worker FROM log WHERE command = 'outcome.record' ORDER BY seq`)
    .pluck()
    .all() as string[];
  book.close();
  return rows;
}

const alert = (page: Page, text: string | RegExp) => page.locator('.saved-mark [role=alert]').filter({ hasText: text });

describe('entries that wait when their worker is signed out', () => {
  it('say so, go in under no other name, and can be copied and let go', async () => {
    const page = await newPage(house.browser);
    await signIn(page, 'Ada');
    await openBlock(page, house.server.hallUrl);
    await page.context().clearCookies();
    await callLot(page, '9.25', '10');
    await untilUp(page, 2);
    await callLot(page, '9.75', '11');
    await page.getByRole('link', { name: 'Sign in to send 2 entries' }).waitFor();
    expect(await page.locator('.saved-mark').innerText()).not.toMatch(/no answer|Saved/);
    await page.getByRole('link', { name: 'Sign in to send 2 entries' }).click();
    await page.waitForURL(/\/sign-in$/);

    await signIn(page, 'Bea');
    await openBlock(page, house.server.hallUrl);
    await alert(page, '2 entries typed by Ada, waiting until Ada signs in.').waitFor();
    await untilUp(page, 3);
    await callLot(page, '10.25', '10');
    await expect.poll(calledBy).toEqual(['3 Bea']);
    expect(await page.locator('.saved-mark [data-tone=done]').count()).toBe(0);

    await page.getByRole('link', { name: 'See what waits' }).click();
    await page.getByRole('heading', { name: 'Lot 2' }).waitFor();
    expect(await axe(page)).toEqual([]);
    expect(await page.getByLabel('What was typed').last().inputValue()).toContain('price: 9.75\nbuyer no: 11');
    await page.getByRole('button', { name: 'Copy Lot 2' }).click();
    await page.getByText('Copied.').waitFor();
    await page.getByRole('button', { name: 'Discard Lot 2' }).click();
    await page.getByRole('button', { name: 'Yes, discard Lot 2 for good' }).click();
    await page.getByRole('heading', { name: 'Lot 2' }).waitFor({ state: 'detached' });
    await alert(page, '1 entry typed by Ada, waiting until Ada signs in.').waitFor();

    await signIn(page, 'Ada');
    await openBlock(page, house.server.hallUrl);
    await untilSaved(page);
    expect(calledBy()).toEqual(['3 Bea', '1 Ada']);
  });

  it('are not taken under the name of who signed in behind the back of the page', async () => {
    const page = await newPage(house.browser);
    await signIn(page, 'Ada');
    await openBlock(page, house.server.hallUrl);
    await signIn(page, 'Bea');
    const before = calledBy();
    await callLot(page, '9.25', '10');
    await alert(page, '1 entry typed by Ada, waiting until Ada signs in.').waitFor();
    expect(calledBy()).toEqual(before);
  });
});

describe('entries that were typed for another book', () => {
  it.each([
    ['x-book', 'f'.repeat(20), 422, 'This was typed for another book: it is not sent to this one.'],
    ['x-worker', 'Bea', 401, 'Bea typed this, and Ada is signed in here: Bea has to sign in.'],
  ])('are refused by the server itself, as those of another worker are: %s', async (name, value, status, sentence) => {
    const { url } = house.server;
    const answer = await raw(`${url}/api/commands/outcome.record`, {
      method: 'POST',
      headers: {
        ...{ 'content-type': 'application/json', 'idempotency-key': `entry-of-another-${name}`, 'x-station': 'block' },
        ...{ origin: url, cookie: `peltry-plain=${tokens.get('Ada')}`, [name]: value },
      },
      body: JSON.stringify({ saleId: 1, lotNo: '9', kind: 'sold', price: '9.25', buyerNo: 10, answered: [] }),
    });
    expect([answer.status, JSON.parse(answer.text).detail]).toEqual([status, sentence]);
    expect(answer.headers).toMatchObject({ 'x-peltry-book': expect.stringMatching(/^[0-9a-f]{20}$/) });
    expect(answer.headers).toMatchObject({ 'x-peltry-worker': 'Ada' });
    expect(calledBy()).not.toContain('9 Ada');
  });

  it('are not sent, and it is said', async () => {
    const [first, second] = [tempFile(), tempFile()];
    fillSellingBook(first, { lots: 3 }).close();
    // Another first line, and so another book.
    const { token } = workerIn(second, 'Ada');
    fillSellingBook(second, { lots: 3 }).close();
    const server = await startServer({ bookFile: first, env: {} });
    const page = await newPage(await theBrowser(), { expected: [/net::ERR/, /Failed to load resource/] });
    await openBlock(page, server.hallUrl);
    await server.stop();
    await callLot(page, '9.25', '10');
    await page.locator('.saved-mark').getByText('no answer from the server yet').waitFor();
    const other = await startServer({ bookFile: second, port: Number.parseInt(new URL(server.url).port, 10) });
    await page.context().addCookies([{ name: 'peltry-plain', value: token, url: server.hallUrl }]);
    await openBlock(page, server.hallUrl);
    await alert(page, '1 entry typed by somebody, for another book.').waitFor();
    await page.goto(`${server.hallUrl}/waiting`);
    await page.getByText('Typed for another book: it is not sent to this one.').waitFor();
    expect(outcomesIn(second)).toEqual([]);
    await other.stop();
  });
});
