/** The pictures of the guides, drawn from the demo, so that a guide never shows a screen that is no longer so. */
import type { Page } from 'playwright-core';

interface GuidePicture {
  /** Its name in docs/pictures/. */
  readonly name: string;
  readonly address: string;
  /** What is shown, as a CSS selector; the whole work of the page where nothing is said. */
  readonly shows?: string;
  /** What somebody types first. */
  readonly typed?: (page: Page) => Promise<void>;
}

async function typeInto(page: Page, label: string, text: string): Promise<void> {
  await page
    .locator('input')
    .and(page.getByLabel(label, { exact: true }))
    .first()
    .fill(text);
}

export const GUIDE_PICTURES: readonly GuidePicture[] = [
  { name: 'sale', address: '/', shows: '.sheet' },
  {
    name: 'intake',
    address: '/intake/seller/2',
    shows: '.sheet',
    typed: async (page) => {
      await typeInto(page, 'Goods', 'rac');
      await page.keyboard.press('Enter');
      await typeInto(page, 'Pieces', '12');
    },
  },
  { name: 'holds', address: '/intake/holds', shows: '.sheet' },
  {
    name: 'block',
    address: '/block',
    shows: '.sheet',
    typed: async (page) => {
      await page.keyboard.type('13.25');
      await page.keyboard.press('Enter');
    },
  },
  { name: 'board', address: '/board', shows: '.board' },
  { name: 'till', address: '/till/2', shows: '.table-top' },
  { name: 'hand-over', address: '/till/2/hand-over', shows: '#main' },
  { name: 'payout', address: '/payout?sale=3', shows: '#main' },
  { name: 'balance', address: '/payout/balance?sale=3', shows: '.sheet' },
  { name: 'prices', address: '/prices/raccoon', shows: '#main' },
  { name: 'office', address: '/office/log', shows: '#main' },
  {
    name: 'network',
    address: '/office/network',
    shows: '.sheet',
    typed: async (page) => {
      await page.getByRole('button', { name: 'Open the hall' }).click();
      await page.getByText('Everybody joins at').waitFor();
      // Not the address of the machine that takes the picture.
      const example = { origin: 'http://192.168.1.10:3000', secure: 'https://192.168.1.10:3443' };
      await page.evaluate(({ origin, secure }) => {
        for (const row of document.querySelectorAll('tbody tr:not(:first-child)')) row.remove();
        for (const cell of document.querySelectorAll('.path')) {
          const own = cell.textContent?.replace(/^http:\/\/[^/]+/, origin).replace(/^https:\/\/[^/]+/, secure);
          if (cell.childElementCount === 0) cell.textContent = own ?? '';
        }
      }, example);
    },
  },
];

const VIEWPORT = { width: 820, height: 1000 };
/** In CSS pixels: what is below adds nothing to an overview. */
const HIGHEST = 640;

/** Takes one picture, as PNG. */
export async function guidePicture(page: Page, url: string, picture: GuidePicture): Promise<Buffer> {
  await page.setViewportSize(VIEWPORT);
  await page.goto(url + picture.address);
  // The mark is drawn once the page listens to keys; the pages of the hall have none.
  if ((await page.locator('.theme-switch').count()) > 0) await page.locator('.saved-mark').waitFor();
  await page.evaluate(() => document.fonts.ready.then(() => undefined));
  await picture.typed?.(page);
  const box = await page
    .locator(picture.shows ?? '#main')
    .first()
    .boundingBox();
  if (!box) throw new Error(`Nothing to be seen of ${picture.name} at ${picture.address}`);
  return page.screenshot({ clip: { ...box, height: Math.min(box.height, HIGHEST) }, fullPage: true, caret: 'initial' });
}
