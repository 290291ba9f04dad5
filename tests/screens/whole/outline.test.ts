import { describe, expect, it } from 'vitest';
import { pageOfAll } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';

/** What a screen reader is told of the four stations: the accessibility tree that the browser makes of each. */
const house = testHouse((bookFile) => fillSellingBook(bookFile, { lots: 4 }).close());

/** Each as the main thing to do there, in the order in which it is read out. */
const TOLD: readonly (readonly [path: string, told: readonly RegExp[]])[] = [
  [
    '/intake',
    [/^- main:/m, /heading "Check in" \[level=1\]/, /combobox "Who is at the table\?"/, /heading "Came in so far"/],
  ],
  [
    '/block',
    [
      ...[/^- main:/m, /heading "Lot 1" \[level=1\]/, /term: A price stands for/, /form "Price and buyer"/],
      ...[
        /textbox "Price each"/,
        /textbox "Buyer number"/,
        /button "\* No-sale"/,
        /heading "The last ten" \[level=2\]/,
      ],
    ],
  ],
  ['/till', [/^- main:/m, /heading "[^"]+" \[level=1\]/, /textbox "Buyer number"/, /button "Show the account"/]],
  [
    '/payout',
    [/^- main:/m, /navigation "Payout"/, /heading "Settlements" \[level=1\]/, /columnheader/, /heading "All together"/],
  ],
];

describe('the accessibility tree', () => {
  const narrow = pageOfAll(
    () => house.browser,
    async (page) => {
      await page.setViewportSize({ width: 320, height: 640 });
      await page.emulateMedia({ reducedMotion: 'reduce' });
    },
  );

  it.each(TOLD)('of %s tells what there is to do, in its order, under one heading', async (path, told) => {
    const page = await narrow();
    await page.goto(house.server.hallUrl + path);
    await page.locator('.saved-mark').waitFor({ state: 'attached' });
    const tree = await page.locator('main').ariaSnapshot();
    const places = told.map((words) => tree.search(words));
    expect(
      places.every((place) => place >= 0),
      `${told[places.indexOf(-1)]} is missing in\n${tree}`,
    ).toBe(true);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(tree.match(/\[level=1\]/g)).toHaveLength(1);
    // 320 CSS pixels are a window of 1280 at 400 %.
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    const moving = await page.evaluate(() => document.getAnimations().length);
    expect(moving).toBe(0);
  });
});
