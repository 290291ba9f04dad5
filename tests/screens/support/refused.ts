/** A refusal about a field of the test's choice, as the book may say it of a field that a form does not draw. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import type { TestHouse } from '#tests/screens/support/house.ts';
import { type Hall, hallOf } from '#tests/support/hall.ts';

/** From now on the book refuses the command on this page; gives the sentence that it says. */
export async function refuseUnseen(page: Page, command: string, field: string): Promise<string> {
  const detail = `The book says no to ${command} for its ${field}: do it otherwise.`;
  await page.route(`**/api/commands/${command}`, (route) =>
    route.fulfill({
      status: 422,
      contentType: 'application/problem+json',
      body: JSON.stringify({ title: 'Refused', status: 422, code: 'malformed', detail, field }),
    }),
  );
  return detail;
}

/** Whatever a form does not draw, it says once, where everybody sees it. */
export async function isSaid(page: Page, sentence: string): Promise<void> {
  const alert = page.getByRole('alert').filter({ hasText: sentence });
  await alert.waitFor();
  expect(await page.getByText(sentence).count()).toBe(1);
}

/** A refusal as somebody at a station brings it about, on a page that does not hear what others do meanwhile. */
export interface RefusedAct {
  readonly path: string;
  /** What was done before the page was read. */
  readonly first?: (hall: Hall) => void;
  /** What other stations have done since the page was read. */
  readonly behind?: (hall: Hall) => void;
  readonly act: (page: Page) => Promise<void>;
  /** The sentence, or how it begins. */
  readonly says: string | RegExp;
}

/** Does each act on its page: the sentence is to be read there, and the book has nothing more in it than before. */
export async function refusedAll(house: TestHouse, acts: readonly RefusedAct[]): Promise<void> {
  const page = await newPage(house.browser);
  await page.route('**/api/live*', (route) => route.abort());
  const book = openBook(house.bookFile);
  const hall = hallOf(book, 1);
  const entries = () => book.sqlite.prepare('SELECT max(seq) FROM log').pluck().get();
  for (const { path, first, behind, act, says } of acts) {
    first?.(hall);
    await page.goto(`${house.server.hallUrl}${path}`);
    await page.locator('.saved-mark').waitFor();
    behind?.(hall);
    const before = entries();
    await act(page);
    await page.locator('.field-error, .notice, [role=alert]').filter({ hasText: says }).first().waitFor();
    expect(entries()).toBe(before);
  }
  book.close();
}

export const press = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: true }).click();

/** Types into a field and presses a button. */
export const typed = (label: string, text: string, act: string) => async (page: Page) => {
  await page.getByLabel(label, { exact: true }).fill(text);
  await press(page, act);
};

/** The same in a part of the page that is folded away. */
export const folded = (summary: string | RegExp, label: string, text: string, act: string) => async (page: Page) => {
  const head = page.locator('summary', { hasText: summary });
  const fold = page.locator('details').filter({ has: head }).last();
  await fold.locator('summary').click();
  await fold.getByLabel(label, { exact: true }).fill(text);
  await fold.getByRole('button', { name: act, exact: true }).click();
};
