/** A refusal about a field of the test's choice, as the book may say it of a field that a form does not draw. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

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
