import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import type { Stage } from '#lib/sale/facts.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { atIntake, checkIn, GOODS, intakeHall, keys, table } from '#tests/screens/support/intake.ts';
import { isSaid, refuseUnseen } from '#tests/screens/support/refused.ts';
import { type Hall, SALE } from '#tests/support/hall.ts';

const house = testHouse((bookFile) => {
  const hall = intakeHall(bookFile);
  pieceGoneHome(hall);
  guestOfTheYearBefore(hall);
  hall.book.close();
});

const HOME_AGAIN = 'US-CITES WY BOB 2024 000777';

/** A bobcat of seller 1 that nobody bought at the sale of the year before. */
function pieceGoneHome({ must }: Hall): void {
  const earlier = { ...SALE, name: 'Late Winter Sale 2025', held_on: '2025-02-22', season: '2024-25' } as const;
  const saleId = must('sale.plan', { sale: earlier, goods: GOODS }).saleId;
  const stage = (name: Stage) => must('sale.stage', { saleId, stage: name, reason: '' });
  stage('intake');
  must('seller.register', { saleId, sellerNo: 1, partners: [{ personId: 1 }] });
  must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1', tags: [{ tag: HOME_AGAIN }] });
  stage('selling');
  must('outcome.record', { saleId, lotNo: '1', kind: 'passed' });
}

/** The tags of this season's sale, in the order in which they came. */
function tagsInBook(): unknown[] {
  const book = openBook(house.bookFile);
  const found = book.sqlite
    .prepare('SELECT tag FROM tag JOIN lot ON lot.id = tag.lot_id WHERE lot.sale_id = 1 ORDER BY tag.id')
    .pluck()
    .all();
  book.close();
  return found;
}

/** A guest whose lot was sold at that sale, which is still open: 10 × 20.00 less 20.00, 0.25 and 5.00 is 174.75. */
function guestOfTheYearBefore({ must }: Hall): void {
  const { personId } = must('person.enrol', { name: 'Nat Orr' });
  must('seller.register', { saleId: 2, sellerNo: 2, partners: [{ personId }] });
  must('buyer.register', { saleId: 2, buyerNo: 10, personId: 3, cleared: true });
  must('lot.add', { saleId: 2, sellerNo: 2, goods: 'raccoon', count: '10' });
  must('outcome.record', { saleId: 2, lotNo: '2', kind: 'sold', price: '20.00', buyerNo: 10 });
  must('sale.stage', { saleId: 2, stage: 'settling', reason: '' });
}

const atTheBox = () => atIntake(house.browser, house.server);

describe('dues at the table', () => {
  it('are taken with the number, and the membership is said at once', async () => {
    const page = await atTheBox();
    await checkIn(page, 'Jo Lind');
    await page.getByLabel('Full name').waitFor();
    await keys(page, 'Enter');
    await page.getByLabel('Dues of Jo Lind', { exact: true }).selectOption('In cash');
    expect(await page.getByLabel('Amount of the dues').inputValue()).toBe('25.00');
    await page.getByLabel('Dues paid until').fill('2026-02-01');
    await page.getByRole('textbox', { name: 'Seller number' }).fill('80');
    await keys(page, 'Enter');
    await page.getByText('Dues until Feb 1, 2026 make nobody a member on Feb 28, 2026').waitFor();
    await page.getByLabel('Dues paid until').fill('2026-12-31');
    await keys(page, 'Enter');
    await page.getByRole('heading', { name: 'Jo Lind' }).waitFor();
    await page.getByText('Member, dues paid until Dec 31, 2026').waitFor();
    await page.getByText('Dues taken: 25.00 in cash, paid until Dec 31, 2026.').waitFor();
    await page.getByText('This number sells at the members’ rates.').waitFor();

    await page.getByRole('button', { name: 'Take the dues back' }).click();
    await page.getByLabel('Why they are taken back').fill('Wrong person');
    await keys(page, 'Enter');
    await page.getByText('This number sells at the guests’ rates.').waitFor();
    await page.getByRole('button', { name: 'Take dues of Jo Lind' }).click();
    await page.getByLabel('Dues of Jo Lind', { exact: true }).selectOption('From the proceeds');
    await page.getByRole('button', { name: 'Take the dues' }).click();
    await page.getByText('Dues taken: 25.00 from the proceeds, paid until Feb 28, 2027.').waitFor();
    await page.getByText('This number sells at the members’ rates.').waitFor();
  });

  it('leave the net of an earlier sale that is still open alone, and say so', async () => {
    const net = async () => {
      const payout = await newPage(house.browser);
      await payout.goto(`${house.server.hallUrl}/payout/2?sale=2`);
      const words = await payout.locator('.sheet').first().innerText();
      await payout.close();
      return words;
    };
    expect(await net()).toMatch(/To be paid to you\s+174\.75/);
    const page = await atTheBox();
    await checkIn(page, 'Nat Orr');
    await page.getByLabel('Dues of Nat Orr', { exact: true }).selectOption('In cash');
    await page.getByRole('textbox', { name: 'Seller number' }).fill('81');
    await keys(page, 'Enter');
    await page.getByRole('heading', { name: 'Nat Orr' }).waitFor();
    await page.getByText('This number sells at the members’ rates.').waitFor();
    expect(await net()).toMatch(/To be paid to you\s+174\.75/);
    await page.getByText('Late Winter Sale 2025 does not change: it goes by the dues paid when it was held.').waitFor();
  });

  it('are taken of somebody without furs, who gets no number', async () => {
    const page = await atTheBox();
    await checkIn(page, 'Kay Moss');
    await page.getByLabel('Full name').waitFor();
    await keys(page, 'Enter');
    await page.getByLabel('Dues of Kay Moss').selectOption('By check');
    await page.getByLabel('Number of the check').fill('1042');
    await page.getByRole('button', { name: 'Take the dues only, without furs' }).click();
    await page.getByText('Dues of Kay Moss taken, 25.00 by check: paid until Feb 28, 2027.').waitFor();
    await keys(page, 'kay');
    await page.getByRole('option', { name: /Kay Moss.*Member, dues paid until Feb 28, 2027/ }).waitFor();
  });
});

describe('a sale that asks for a licence', () => {
  it('refuses somebody without one, and takes them once it is entered, with nothing typed lost', async () => {
    const page = await atTheBox();
    const require = async (yes: boolean) => {
      await page.getByText('Rules of the table').click();
      await page.getByLabel('Nobody sells with an expired licence or without one').setChecked(yes);
      await page.getByRole('button', { name: 'Keep the rules' }).click();
      await page.getByText('Kept.').waitFor();
    };
    await require(true);
    await page.getByRole('combobox', { name: 'Who is at the table?' }).focus();
    await checkIn(page, 'Lea Nord');
    await page.getByLabel('Full name').waitFor();
    await keys(page, 'Enter');
    await page.getByText('No licence on record').waitFor();
    await page.getByRole('textbox', { name: 'Seller number' }).fill('90');
    await keys(page, 'Enter');
    await page.getByText('Lea Nord has no licence on record, and nobody sells here without one').waitFor();
    await page.getByRole('button', { name: 'Particulars of Lea Nord' }).click();
    await page.getByLabel('Licence number').fill('T-400');
    await page.getByLabel('Licence expires').fill('2026-12-31');
    await keys(page, 'Enter');
    await page.getByText('Licence T-400, good until Dec 31, 2026').waitFor();
    expect(await page.getByRole('textbox', { name: 'Seller number' }).inputValue()).toBe('90');
    await keys(page, 'Enter');
    await page.getByRole('heading', { name: 'Lea Nord' }).waitFor();
    await page.goto(`${house.server.hallUrl}/intake`);
    await page.getByText('Saved').waitFor();
    await require(false);
  });
});

describe('a piece that went home unsold', () => {
  it('comes back with its tag, whose year is asked about, and the next number alone is of this season', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/intake/seller/9`);
    await page.getByText('Saved').waitFor();
    await page.getByRole('combobox', { name: 'Goods' }).focus();
    const bobcat = ['bo', 'Enter', '1', 'Enter', 'l', 'Enter', '1', 'Enter'];
    await keys(page, ...bobcat, 'US-CITES WY BOB 2025 000401', 'Enter');
    // That it is in is said at once; what this season's tags show is known once the page has read its figures anew.
    await table(page)
      .getByRole('row', { name: /Bobcat.* ready/ })
      .waitFor();

    await keys(page, ...bobcat, HOME_AGAIN, 'Enter');
    const question = page.getByRole('alert').filter({ hasText: `Tag ${HOME_AGAIN} shows the year 2024` });
    await question.getByText('this season’s tags are from 2025. Is it as on the tag?').waitFor();
    // Escape goes back to what was typed, and only a second Enter on the question says yes.
    await keys(page, 'Escape');
    await expect.poll(() => question.count()).toBe(0);
    expect(await page.getByLabel('Export tags').inputValue()).toBe(HOME_AGAIN);
    await keys(page, 'Enter');
    await question.waitFor();
    expect(tagsInBook()).toHaveLength(1);
    await keys(page, 'Enter');
    const lot = table(page).getByRole('row').filter({ hasText: 'Came back: went home unsold before.' });
    await lot.getByText('ready').waitFor();

    // The whole number is seen before it is saved.
    await keys(page, ...bobcat, '000777');
    await page.locator('.tags-read code').waitFor();
    expect(await page.locator('.tags-read code').allTextContents()).toEqual(['US-CITES WY BOB 2025 000777']);
    await keys(page, 'Enter');
    await expect.poll(tagsInBook).toEqual(['US-CITES WY BOB 2025 000401', HOME_AGAIN, 'US-CITES WY BOB 2025 000777']);
  });

  it('is asked about where tags are put right in place', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/intake/holds`);
    await page.getByText('Saved').waitFor();
    await page.getByRole('button', { name: 'Tags of lot 2' }).click();
    await keys(page, 'US-CITES WY BOB 2023 000888', 'Enter');
    await page.getByRole('alert').filter({ hasText: '000888 shows the year 2023' }).waitFor();
    await page.getByRole('region', { name: '1 on hold' }).waitFor();
    await keys(page, 'Enter');
    await page.getByText('No lot is on hold.').waitFor();
    expect(tagsInBook()).toContain('US-CITES WY BOB 2023 000888');
  });

  it('is asked about in a list too, before the list is taken in', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/intake/seller/9`);
    await page.getByText('Saved').waitFor();
    await page.getByText('A list: rows from a spreadsheet').click();
    const text = 'goods\tcount\ttags\nbobcat\t1\tUS-CITES WY BOB 2024 000901\nbobcat\t1\t000902\nnutria\t1\t';
    await page.getByLabel('Rows from a spreadsheet').fill(text);
    await page.getByRole('button', { name: 'Look through the rows' }).click();
    await page.getByText('no goods called nutria').first().waitFor();
    await page.getByText('have the office add them on the Sale page, under Goods.').first().waitFor();
    await page.getByLabel('Rows from a spreadsheet').fill(text.replace('nutria', 'raccoon'));
    await page.getByRole('button', { name: 'Look through the rows' }).click();
    await page.getByText('Check the year on these tags').waitFor();
    await page.getByText('Line 2: Tag US-CITES WY BOB 2024 000901 shows the year 2024').waitFor();
    // A number alone does not go with the year that was asked about.
    await page.getByRole('cell', { name: 'US-CITES WY BOB 2025 000902' }).waitFor();
    expect(await axe(page)).toEqual([]);
  });
});

describe('a refusal about a field that is not drawn', () => {
  it('is said at the head of the form', async () => {
    // Nobody asks a member who has paid for dues.
    const page = await atTheBox();
    await checkIn(page, 'lac');
    const dues = await refuseUnseen(page, 'seller.register', 'partners.0.dues.amount');
    await page.getByRole('button', { name: 'Give the number' }).click();
    await isSaid(page, dues);

    // A replacement is asked for only where there is one.
    await page.goto(`${house.server.hallUrl}/intake/lot/1?sale=2`);
    await page.getByText('Saved').waitFor();
    const replacement = await refuseUnseen(page, 'tag.mend', 'replacement');
    await page.getByText('A tag broke or was replaced').click();
    await page.getByRole('button', { name: 'Save what was found' }).click();
    await isSaid(page, replacement);
  });
});

describe('a list from a spreadsheet', () => {
  const rows = [
    'Goods\tCount\tSize\tGrade\tMinimum\tTags',
    'Raccoon\t21\tL\tII\t8.00\t',
    'muskrat\tmany\tM\tI\t2,50\t',
    'bobcat\t2\tL\tI\t\tUS-CITES WY BOB 2025 000302-000301',
  ];

  it('is pasted, shows each problem in its cell, and is taken in whole or not at all', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/intake/seller/9`);
    await page.getByText('Saved').waitFor();
    await page.getByText('A list: rows from a spreadsheet').click();
    const box = page.getByLabel('Rows from a spreadsheet');
    await box.fill(rows.join('\n'));
    // Cut and pasted back, as from a spreadsheet: plain http knows no other way to the clipboard.
    await box.focus();
    await keys(page, 'Control+a', 'Control+x', 'Control+v');
    await page.getByText('3 things to put right; nothing was taken in.').waitFor();
    const preview = page.getByRole('region', { name: 'The rows as they were read' });
    expect(await preview.locator('td[data-wrong]').allInnerTexts()).toEqual([
      expect.stringMatching(/^many\s+.*\.$/s),
      expect.stringMatching(/^2,50\s+.*\.$/s),
      expect.stringMatching(/^US-CITES WY BOB 2025 000302-000301\s+Enter the lower number first.*\.$/s),
    ]);
    expect(await axe(page)).toEqual([]);
    expect(await page.getByRole('button', { name: /^Take in/ }).count()).toBe(0);
    expect(await box.inputValue()).toBe(rows.join('\n'));

    const mended = rows.join('\n').replace('many', '22').replace('2,50', '2.50');
    await box.fill(mended.replace('000302-000301', '000301-000302'));
    await page.getByRole('button', { name: 'Look through the rows' }).click();
    await page.getByRole('button', { name: 'Take in 3 lots' }).click();
    await page.getByText('3 lots are in').waitFor();
    await table(page).getByText('21 pieces, L, II').waitFor();
    await table(page).getByText('22 pieces, M, I').waitFor();
    const bobcat = table(page).getByRole('row').filter({ hasText: '2 pieces, L, I' }).filter({ hasText: 'Bobcat' });
    await bobcat.getByText('ready').waitFor();
    expect(await box.inputValue()).toBe('');
  });

  it('is chosen as a file; one that is no plain text is refused, and nothing is lost', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/intake/seller/9`);
    await page.getByText('Saved').waitFor();
    await page.getByText('A list: rows from a spreadsheet').click();
    const file = page.getByLabel('Or the member’s own list');
    const text = 'lot_no,seller_no,goods,by,count\n1,,bobcat,piece,2\n';
    await file.setInputFiles({ name: 'lots.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
    await page.getByText('1 of them will be on hold until their export tags are right.').waitFor();
    await page.getByText('The list’s own lot numbers are left out').waitFor();
    await file.setInputFiles({ name: 'lots.xls', mimeType: 'text/csv', buffer: Buffer.from([0xd0, 0xcf, 0, 0xff]) });
    await page.getByText('lots.xls is no list in plain text').waitFor();
    expect(await page.getByLabel('Rows from a spreadsheet').inputValue()).toBe(text);
  });
});
