/** Fetches a paper as the page's own links do, and reads its text. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { readBack } from '#tests/papers/support/pdf.ts';

/** The text of the paper that a link leads to. */
export async function paperBehind(page: Page, name: string | RegExp): Promise<string> {
  const href = await page.getByRole('link', { name }).getAttribute('href');
  return paperAt(page, href ?? '');
}

export async function paperAt(page: Page, address: string): Promise<string> {
  const { status, type, bytes } = await fetched(page, address);
  expect({ status, type }).toEqual({ status: 200, type: 'application/pdf' });
  return readBack(Uint8Array.from(bytes)).text;
}

/** Asks from within the page, as its links do. */
export function fetched(page: Page, address: string) {
  return page.evaluate(async (path) => {
    const answer = await fetch(path);
    const bytes = [...new Uint8Array(await answer.arrayBuffer())];
    return { status: answer.status, type: answer.headers.get('content-type'), bytes };
  }, address);
}
