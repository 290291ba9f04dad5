/** What the Block said before its browser was killed, against what the browser still has when it is started again. */
import type { Page } from 'playwright-core';
import { describe, expect, it, onTestFinished } from 'vitest';
import { callLot, openBlock, outcomesIn, untilSaved } from '#tests/screens/support/block.ts';
import { openKillable } from '#tests/screens/support/chromium.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { tempFolder } from '#tests/support/temp.ts';

const house = testHouse((bookFile) => {
  fillSellingBook(bookFile, { lots: 20 }).close();
});

const mark = (page: Page) => page.locator('.saved-mark .mark');

/** Work without an end on the same store: no entry is stored behind it. */
const keepStoreBusy = (page: Page) =>
  page.evaluate(async () => {
    const opened = await new Promise<IDBDatabase>((resolve) => {
      const asked = indexedDB.open('peltry-outbox');
      asked.onsuccess = () => resolve(asked.result);
    });
    const entries = opened.transaction('entries', 'readwrite').objectStore('entries');
    const again = () => {
      entries.count().onsuccess = again;
    };
    again();
  });

async function opened(profile: string) {
  const { window, kill } = await openKillable(profile);
  onTestFinished(kill);
  const page = window.pages()[0] ?? (await window.newPage());
  await page.route('**/api/commands/*', (route) => route.abort());
  await openBlock(page, house.server.hallUrl);
  return { page, kill };
}

describe('a browser that is killed', () => {
  it('while it says Saving has said nothing else; and once it says waiting, has the entry when it comes back', async () => {
    const profile = tempFolder();
    const before = outcomesIn(house.bookFile).length;
    const first = await opened(profile);
    await keepStoreBusy(first.page);
    await callLot(first.page, '9.25', '10');
    await mark(first.page).getByText('Saving…').waitFor();
    expect(await first.page.locator('.last-ten li').first().getAttribute('data-state')).toBe('saving');
    await first.kill();

    const second = await opened(profile);
    expect(await mark(second.page).innerText()).toBe('Saved');
    await callLot(second.page, '9.75', '11');
    await mark(second.page).getByText('1 waiting').waitFor();
    await second.kill();

    const third = await opened(profile);
    await mark(third.page).getByText('1 waiting').waitFor();
    await third.page.unroute('**/api/commands/*');
    await untilSaved(third.page);
    expect(outcomesIn(house.bookFile).slice(before)).toMatchObject([{ priceCents: 975, buyerNo: 11 }]);
  });
});
