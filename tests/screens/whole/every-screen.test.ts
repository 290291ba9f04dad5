import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { groupBy } from '#lib/result/text.ts';
import { fillBook } from '#seed/hold-sale.ts';
import { SCREENS } from '#tests/screens/support/addresses.ts';
import { axeInThemes, foldRepeated } from '#tests/screens/support/axe.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';

/**
 * Every screen of the demo as somebody has it who sees little: 320 CSS pixels, which are a window of 1280 at 400 %, in
 * the light, in the dark and in the sun (WCAG 2.2, and 7:1). A new page is in the list the moment it is there. Other tests
 * ask axe only for what a screen shows in the middle of some work.
 */
const house = testHouse((bookFile) => {
  const book = openBook(bookFile, { create: true });
  book.sqlite.pragma('synchronous = OFF');
  fillBook(book);
  book.close();
});

/** In CSS pixels, at 320: a fifth of the window of 640. */
const HEAD_AT_MOST = 130;

const first = (address: string) => address.split(/[/?]/)[1] ?? '';
const STATIONS = groupBy(SCREENS, first);

/** What makes the page wider than the window; nothing where it fits. */
const beyondTheEdge = (page: Page) =>
  page.evaluate(() => {
    const { scrollWidth, clientWidth } = document.documentElement;
    if (scrollWidth <= clientWidth) return [];
    const wide = [...document.querySelectorAll('body *')].filter(
      (one) => one.getBoundingClientRect().right > clientWidth,
    );
    return wide.map((one) => `${one.tagName} ${one.className}: ${one.textContent?.slice(0, 40)}`);
  });

/**
 * What the head of a page takes of a phone, in CSS pixels, and what of it is lower than a finger (WCAG 2.2, 2.5.5 has
 * 44). Nothing where a page has no head. A warning in it is worth its room.
 */
const headOf = (page: Page) =>
  page.evaluate(() => {
    const head = document.querySelector<HTMLElement>('.masthead');
    if (!head) return { high: 0, small: [] };
    const heights = [...head.querySelectorAll<HTMLElement>('a:not(.skip), select, button')];
    const notices = [...head.querySelectorAll<HTMLElement>('.notice, .open-line, .open-sales')].reduce(
      (sum, one) => sum + one.offsetHeight,
      0,
    );
    return {
      high: head.offsetHeight - notices,
      small: heights.filter((one) => one.offsetHeight < 44).map((one) => one.textContent),
    };
  });

const moving = (page: Page) => page.evaluate(() => document.getAnimations().length);

/** WCAG 2.2, 1.4.12: what is too wide with the four distances between letters, words, lines and paragraphs that a reader may set. */
async function whenSpacedOut(page: Page): Promise<readonly string[]> {
  await page.evaluate(() => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(
      '* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important }' +
        'p { margin-block-end: 2em !important }',
    );
    document.adoptedStyleSheets = [sheet];
  });
  const found = await beyondTheEdge(page);
  await page.evaluate(() => {
    document.adoptedStyleSheets = [];
  });
  return found;
}

describe('every screen', () => {
  it.each([...STATIONS])(
    'of “%s” is found well by axe in each theme, fits at 400 %, and holds still',
    async (_, list) => {
      const page = await newPage(house.browser, { viewport: { width: 320, height: 640 } });
      for (const address of list) {
        await page.goto(house.server.url + address);
        await page.evaluate(() => {
          for (const folded of document.querySelectorAll('details')) folded.open = true;
        });
        await page.evaluate(() => document.documentElement.setAttribute('data-theme', 'sun'));
        expect(await beyondTheEdge(page), `${address} in the theme sun at 320 px`).toEqual([]);
        expect(await moving(page), address).toBe(0);
        await page.evaluate(() => document.documentElement.removeAttribute('data-theme'));
        for (const width of [1366, 820, 640, 320]) {
          await page.setViewportSize({ width, height: 640 });
          expect(await beyondTheEdge(page), `${address} at ${width} px`).toEqual([]);
        }
        expect(await page.locator('h1').count(), `headings of the first level at ${address}`).toBe(1);
        await page.evaluate(() => {
          for (const folded of document.querySelectorAll<HTMLDetailsElement>('.masthead details')) folded.open = false;
        });
        const head = await headOf(page);
        expect(head.high, `the head of ${address}`).toBeLessThanOrEqual(HEAD_AT_MOST);
        expect(head.small, `in the head of ${address}`).toEqual([]);
        expect(await whenSpacedOut(page), `${address} with text spaced out`).toEqual([]);
        await foldRepeated(page);
        expect(await axeInThemes(page), address).toEqual([]);
      }
    },
  );
});
