/** A small sale whose goods have sizes and grades, and a person to be checked in, for the browser tests of the Intake. */
import type { Browser, Page } from 'playwright-core';
import { openBook } from '#db/book/open.ts';
import { type Hall, hallOf, SALE } from '#tests/support/hall.ts';
import { newPage } from './browser.ts';
import type { Server } from './server.ts';

export const GOODS = [
  { goods: 'raccoon', name: 'Raccoon', by: 'piece', sizes: ['S', 'M', 'L', 'XL'], grades: ['I', 'II', 'III'] },
  { goods: 'muskrat', name: 'Muskrat', by: 'piece', sizes: ['S', 'M', 'L'], grades: ['I', 'II', 'III'] },
  { goods: 'fox-red', name: 'Red fox', by: 'piece', sizes: ['S', 'M', 'L'], grades: ['I', 'II', 'III'] },
  { goods: 'castor', name: 'Castor', by: 'oz', caution: 'Gloves for fresh castor.' },
  {
    goods: 'bobcat',
    name: 'Bobcat',
    by: 'piece',
    sizes: ['S', 'M', 'L'],
    grades: ['I', 'II', 'III'],
    exportTag: true,
    tagSpeciesCode: 'BOB',
  },
] as const;

/** A sale that takes goods in, with three people without a seller number, and seller 9 with a lot that is ready and one on hold. */
export function intakeHall(file: string): Hall {
  const hall = hallOf(openBook(file, { create: true }), 1);
  hall.must('association.set', { name: 'Lantern Ridge Fur Harvesters' });
  hall.must('sale.plan', { sale: { ...SALE, terms: { ...SALE.terms, dues: '25.00' } }, goods: GOODS });
  hall.must('sale.stage', { saleId: 1, stage: 'intake', reason: '' });
  hall.must('person.enrol', {
    ...{ name: 'Zoë Łącka', city: 'Tamarack', phone: '307-555-0142', memberNo: 'LR-7', memberUntil: '2026-12-31' },
    ...{ licenceNo: 'T-100', licenceRegion: 'US-WY', licenceExpires: '2026-06-30' },
  });
  hall.must('person.enrol', { name: 'Bea Cole', memberNo: 'LR-8', memberUntil: '2025-06-30' });
  hall.must('person.enrol', { name: 'Cal Dunn' });
  const dot = hall.must('person.enrol', { name: 'Dot Ebner', memberUntil: '2026-12-31' }).personId;
  hall.must('seller.register', { saleId: 1, sellerNo: 9, partners: [{ personId: dot }] });
  hall.must('lot.add', { saleId: 1, sellerNo: 9, goods: 'raccoon', count: '3', minimum: '8.00', form: 'green' });
  hall.must('lot.add', { saleId: 1, sellerNo: 9, goods: 'bobcat', count: '1' });
  return hall;
}

/** Types like a person at the table: text key by key, and named keys as they are. */
export async function keys(page: Page, ...presses: readonly string[]): Promise<void> {
  for (const press of presses) {
    if (/^(Enter|Tab|Escape|F2|Backspace|Control\+.+|Shift\+.+)$/.test(press)) await page.keyboard.press(press);
    else await page.keyboard.type(press);
  }
}

/** The lots of the seller whose page is open. */
export const table = (page: Page) => page.getByRole('region', { name: /so far$/ });

export const row = (page: Page, lotNo: string) =>
  table(page)
    .getByRole('row')
    .filter({ hasText: new RegExp(`^${lotNo}`) });

/** Opens the check-in table on plain http, as a laptop in the hall has it. */
export async function atIntake(browser: Browser, server: Server): Promise<Page> {
  const page = await newPage(browser);
  await page.goto(`${server.hallUrl}/intake`);
  // The mark is drawn once the page listens to keys.
  await page.getByText('Saved').waitFor();
  return page;
}

/** Types into the box and takes the first of the list. */
export async function checkIn(page: Page, typed: string): Promise<void> {
  await keys(page, typed);
  await page.getByRole('listbox').getByRole('option').first().waitFor();
  await keys(page, 'Enter');
}
