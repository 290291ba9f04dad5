/** How a clerk works the Block, and what the book then holds. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { openBook } from '#db/book/open.ts';

export interface SoldRow {
  readonly lotNumber: number;
  readonly kind: string;
  readonly priceCents: number | null;
  readonly buyerNo: number | null;
}

/** Opens the Block and waits until it takes keys. */
export async function openBlock(page: Page, url: string): Promise<void> {
  await page.goto(`${url}/block`);
  await expect.poll(() => page.locator('.saved-mark').count()).toBe(1);
  await page.waitForFunction(() => document.activeElement?.getAttribute('name') === 'price');
}

/** The number of the lot that is up. */
export async function lotUp(page: Page): Promise<string> {
  return (await page.locator('.lot-up-number').innerText()).replace(/\D+/, '').trim();
}

export async function callLot(page: Page, price: string, buyer: string): Promise<void> {
  await page.keyboard.type(price);
  await page.keyboard.press('Enter');
  await page.keyboard.type(buyer);
  await page.keyboard.press('Enter');
}

export async function untilUp(page: Page, lot: number): Promise<void> {
  await page.waitForFunction(
    (wanted) => document.querySelector('.lot-up-number')?.textContent?.replace(/\D+/, '').trim() === wanted,
    String(lot),
  );
}

/** Waits until a lot is up and the cursor stands in its empty price, which is when a clerk begins to type. */
export async function untilTyping(page: Page, lot: number | string): Promise<void> {
  await page.waitForFunction((wanted) => {
    const up = document.querySelector('.lot-up-number')?.textContent?.replace(/\D+/, '').trim();
    const cursor = document.activeElement;
    return up === wanted && cursor instanceof HTMLInputElement && cursor.name === 'price' && cursor.value === '';
  }, String(lot));
}

/** Waits until the cursor stands in the field of this name, which is when a clerk begins to type into it. */
export async function untilCursorIn(page: Page, label: string): Promise<void> {
  await page.getByLabel(label, { exact: true }).and(page.locator(':focus')).waitFor();
}

/** Waits until nothing that was called here waits any more, neither on its way into the outbox nor in it. */
export async function untilSaved(page: Page): Promise<void> {
  const saved = () =>
    document.querySelector('.saved-mark [data-tone=done]') !== null &&
    document.querySelector('.last-ten :is([data-state=waiting], [data-state=saving])') === null;
  await page.waitForFunction(saved);
}

/** Every outcome of the newest sale in the order in which the book took it down, replaced ones too. */
export function outcomesIn(file: string): SoldRow[] {
  const book = openBook(file);
  const rows = book.sqlite
    .prepare(
      `SELECT lot_number AS lotNumber, outcome.kind, price_cents AS priceCents, buyer_no AS buyerNo FROM outcome
       JOIN lot ON lot.id = outcome.lot_id LEFT JOIN buyer ON buyer.id = outcome.buyer_id
       WHERE lot.sale_id = (SELECT max(id) FROM sale) ORDER BY outcome.id`,
    )
    .all() as SoldRow[];
  book.close();
  return rows;
}

/** The time of the hammer of every outcome, in the order in which the book took it down. */
export function timesIn(file: string): string[] {
  const book = openBook(file);
  const times = book.sqlite.prepare('SELECT at FROM outcome ORDER BY id').pluck().all() as string[];
  book.close();
  return times;
}
