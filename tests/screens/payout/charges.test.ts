import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';

const house = testHouse((bookFile) => {
  const filled = fillSellingBook(bookFile, { lots: 3 });
  const dues = { how: 'deducted', amount: '10.00', memberUntil: '2027-12-31' } as const;
  filled.must('dues.take', { saleId: 1, personId: 3, sellerNo: 3, ...dues });
  // The lot of seller 3.
  filled.must('outcome.record', { saleId: 1, lotNo: '2', kind: 'passed', price: null, buyerNo: null });
  filled.close();
});

function chargesInBook(): unknown[] {
  const book = openBook(house.bookFile);
  const rows = book.sqlite
    .prepare('SELECT kind, amount_cents, how, note, voids_id FROM charge ORDER BY id')
    .raw()
    .all();
  book.close();
  return rows.slice(1);
}

describe('charges and credits of a seller', () => {
  it('are entered and waived; what was typed stands after a refusal, and Enter sends the form', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/payout/3`);
    await page.getByText('Charges and credits').click();
    await page
      .getByText('Dues: paid until Dec 31, 2027, on the sheet: 10.00 charged. It bought a membership')
      .waitFor();
    expect(await page.getByText('Waive Dues').count()).toBe(0);
    const form = page.getByRole('form', { name: 'Charge or credit' });
    const amount = form.getByLabel('Amount');
    const note = form.getByLabel('What it is for');

    await amount.fill('-5.00');
    await note.fill('lent');
    await amount.press('Enter');
    await form.locator('.field-error', { hasText: 'Only an adjustment can be in the seller’s favor' }).waitFor();
    expect(await amount.getAttribute('aria-invalid')).toBe('true');
    expect([await amount.inputValue(), await note.inputValue()]).toEqual(['-5.00', 'lent']);
    await amount.fill('20');
    await amount.press('Enter');
    await page.getByText('Advance: lent, on the sheet: 20.00').waitFor();
    await expect.poll(() => amount.inputValue()).toBe('');

    await form.getByLabel('Kind').selectOption('adjustment');
    await form.getByLabel('How').selectOption('cash');
    await amount.fill('-5.00');
    await amount.press('Enter');
    await form.locator('.field-error', { hasText: 'Say what the adjustment is for.' }).waitFor();
    expect(await amount.inputValue()).toBe('-5.00');
    await note.fill('charged twice');
    await note.press('Enter');
    await page.getByText('Adjustment: charged twice, in cash: 5.00 credited').waitFor();
    expect(await axe(page)).toEqual([]);

    await page.getByText('Waive Advance: lent').click();
    const why = page.getByLabel('Why it is waived').first();
    await why.fill('no');
    await why.press('Enter');
    await page.getByText('Say why in at least 3 characters.').waitFor();
    expect(await why.inputValue()).toBe('no');
    await why.fill('lent by mistake');
    await why.press('Enter');
    await page.getByText('Advance: lent, on the sheet').waitFor({ state: 'detached' });

    await page.getByText('Waive Adjustment: charged twice and take back 5.00').click();
    await page.getByLabel('Why it is waived').fill('it was right');
    await page.getByRole('button', { name: 'Waive it' }).click();
    await page.getByText('Adjustment: charged twice, in cash').waitFor({ state: 'detached' });
    expect(chargesInBook()).toEqual([
      ['advance', 2000, 'deducted', 'lent', null],
      ['adjustment', -500, 'cash', 'charged twice', null],
      ['advance', 2000, 'deducted', 'lent by mistake', 2],
      ['adjustment', -500, 'cash', 'it was right', 3],
    ]);
  });

  it('after the issue make the sheet one to be corrected', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/payout/3`);
    await page.getByRole('button', { name: 'Issue the sheet' }).click();
    await page.getByText('Print the sheet').waitFor();
    await page.getByText('Charges and credits').click();
    const form = page.getByRole('form', { name: 'Charge or credit' });
    await form.getByLabel('Amount').fill('20.00');
    await form.getByLabel('Amount').press('Enter');
    await page.getByText(/^Sheet 1 says .*; now .*\. Issue a correction\.$/).waitFor();
    await page.getByText('Waive Advance').click();
    await page.getByLabel('Why it is waived').fill('lent by mistake');
    await page.getByRole('button', { name: 'Waive it' }).click();
    // Without it the sheet fits again.
    await page.getByText(/^Sheet 1 says /).waitFor({ state: 'detached' });
  });
});
