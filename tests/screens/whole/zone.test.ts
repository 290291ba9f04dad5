/** An evening in Chicago, read in browsers elsewhere: everybody reads the association's time. A page whose text changed as the browser took it over would fail by its console. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { timeInWords } from '#lib/date/date.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { EVENINGS, eveningHall } from '#tests/support/sales.ts';

const [, CHICAGO] = EVENINGS;
if (!CHICAGO) throw new Error('there is no evening');
const { zone } = CHICAGO;
const house = testHouse((file) => eveningHall(CHICAGO, file).book.close());

const reading = async (page: Page, path: string): Promise<string> => {
  await page.goto(`${house.server.hallUrl}${path}`);
  return page.locator('main').innerText();
};

describe.each(['Pacific/Honolulu', 'Europe/Warsaw'])('a browser in %s', (timezoneId) => {
  it('shows the times of the association at Till, Payout, Log, Bank', async () => {
    const page = await newPage(house.browser, { timezoneId });
    for (const [path, words] of [
      ['/till/10', 'Cash, Dec 31, 2026, 11:00 PM'],
      ['/till/drawer', ''],
      ['/payout/1', 'December 31, 2026'],
      ['/payout/balance', 'Dec 31, 2026, 11:00 PM'],
      ['/payout/checks', 'December 31, 2026'],
      ['/payout/bank', ''],
      ['/office/log', 'Dec 31, 2026, 11:00 PM'],
    ] as const) {
      const text = await reading(page, path);
      expect(text, path).toContain(words);
      // Dec 31 at 7:00 PM in Honolulu, Jan 1 at 6:00 AM in Warsaw and in the tables of UTC at 5:00 AM.
      expect(text, path).not.toMatch(/\b(7:00 PM|[56]:00 AM|1 January|Jan 1)\b/);
    }
  });

  it('shows it on the Board, by its own clock', async () => {
    const page = await newPage(house.browser, { timezoneId, expected: [/ERR_FAILED/] });
    await page.route('**/api/live**', (route) => route.abort());
    const before = new Date().toISOString();
    await reading(page, '/board');
    const said = await page
      .getByText('No word from the server since')
      .innerText()
      .then((text) => text.replace(/\s/g, ' '));
    const times = [before, new Date().toISOString()].map((at) => `since ${timeInWords(at, zone)}.`);
    expect(
      times.some((time) => said.includes(time)),
      `${said} or ${times}`,
    ).toBe(true);
  });

  it('says at the Office in which zone that is', async () => {
    const page = await newPage(house.browser, { timezoneId });
    await page.goto(`${house.server.hallUrl}/sale/association`);
    await page
      .getByText(`This device is set to ${timezoneId}. Every screen and paper shows times in ${zone}.`)
      .waitFor();
  });
});
