import { describe, expect, it } from 'vitest';
import { newPage } from '#tests/screens/support/browser.ts';
import { REFUSALS, withoutStorage } from '#tests/screens/support/failing.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { atIntake, checkIn, intakeHall, keys, row, table } from '#tests/screens/support/intake.ts';
import { countKeys } from '#tests/screens/support/keys.ts';

const house = testHouse((bookFile) => {
  intakeHall(bookFile).book.close();
});

const atTheBox = () => atIntake(house.browser, house.server);

describe('checking in by keyboard', () => {
  it('takes a known member with five lots, one of them tagged, in at most 90 keys and 10 an ordinary line', async () => {
    const page = await atTheBox();
    const count = await countKeys(page);
    await checkIn(page, 'lac');
    await page.getByRole('textbox', { name: 'Seller number' }).waitFor();
    await keys(page, 'Enter');
    await page.getByRole('heading', { name: 'Zoë Łącka' }).waitFor();
    const beforeLines = count.pressed();
    await keys(page, 'ra', 'Enter', '12', 'Enter', 'l', 'Enter', '2', 'Enter');
    expect(count.pressed() - beforeLines).toBeLessThanOrEqual(10);
    await keys(page, 'mu', 'Enter', '32', 'Enter', 'm', 'Enter', '1', 'Enter');
    await keys(page, 'Enter', '40', 'Enter', 's', 'Enter', '3', 'Enter');
    await keys(page, 'fo', 'Enter', '5', 'Enter', 'l', 'Enter', '2', 'Enter');
    await keys(page, 'bo', 'Enter', '3', 'Enter', 'l', 'Enter', '1', 'Enter');
    await keys(page, 'US-CITES WY BOB 2025 000101-103', 'Enter');
    await row(page, '7').getByText('ready').waitFor();
    expect(count.pressed()).toBeLessThanOrEqual(90);
    expect(count.pointed()).toBe(0);
    expect(await table(page).getByRole('row').allInnerTexts()).toEqual([
      expect.any(String),
      expect.stringMatching(/^3\s+Raccoon\s+12 pieces, L, II\s+ready/),
      expect.stringMatching(/^4\s+Muskrat\s+32 pieces, M, I\s+ready/),
      expect.stringMatching(/^5\s+Muskrat\s+40 pieces, S, III\s+ready/),
      expect.stringMatching(/^6\s+Red fox\s+5 pieces, L, II\s+ready/),
      expect.stringMatching(/^7\s+Bobcat\s+3 pieces, L, I\s+ready/),
    ]);
  });

  it('repeats the line before with one key, and never in the place of what is typed', async () => {
    const page = await atTheBox();
    await checkIn(page, 'dunn');
    await page.getByRole('textbox', { name: 'Seller number' }).waitFor();
    await keys(page, '40', 'Enter');
    await page.getByRole('heading', { name: 'Cal Dunn' }).waitFor();
    await keys(page, 'ra', 'Enter', '7', 'Enter', 'xl', 'Enter', 'ii', 'Enter');
    await page.getByText('is in: Raccoon, 7').waitFor();
    const count = await countKeys(page);
    await keys(page, 'F2');
    await expect.poll(() => table(page).getByText('7 pieces, XL, II').count()).toBe(2);
    expect([count.pressed(), count.pointed()]).toEqual([1, 0]);

    await keys(page, 'mu', 'F2');
    await page.getByText('This line is begun').waitFor();
    expect(await page.getByRole('combobox', { name: 'Goods' }).inputValue()).toBe('mu');
    await page.getByRole('combobox', { name: 'Goods' }).fill('');
    await keys(page, 'Shift+F2', '9', 'Control+Enter');
    await table(page).getByText('9 pieces, XL, II').waitFor();
    expect(await table(page).getByText('7 pieces, XL, II').count()).toBe(2);
  });
});

describe('a lot with export tags', () => {
  it('is on hold until its tags are right, and typed text stays when a tag is refused', async () => {
    const page = await atTheBox();
    await checkIn(page, 'LR-8');
    await page.getByRole('textbox', { name: 'Seller number' }).waitFor();
    await keys(page, '50', 'Enter');
    await page.getByRole('heading', { name: 'Bea Cole' }).waitFor();
    await page.getByText('Lapsed: dues of member LR-8 ran out on Jun 30, 2025').waitFor();
    await keys(page, 'bob', 'Enter', '2', 'Enter', 'm', 'Enter', '1', 'Enter', '000103', 'Enter', 'Enter');
    await page.getByText('Tag US-CITES WY BOB 2025 000103 is already on lot 7').waitFor();
    expect(await page.getByLabel('Export tags').inputValue()).toContain('000103');
    expect(await page.getByLabel('Pieces').inputValue()).toBe('2');
    await page.getByLabel('Export tags').fill('000201');
    await keys(page, 'Enter', 'Enter');
    await table(page).getByText('on hold').waitFor();
    await table(page)
      .getByText(/has 2 pieces and 1 good export tag: have the agency's officer attach 1 more/)
      .waitFor();

    await page.goto(`${house.server.hallUrl}/intake/holds`);
    const held = page.getByRole('region', { name: /on hold$/ });
    await held.getByRole('button', { name: 'Tags of lot 11' }).click();
    const tags = held.getByLabel('Export tags');
    expect(await tags.inputValue()).toBe('US-CITES WY BOB 2025 000201');
    await tags.fill('us-cites wy bob 2025 000201, 000202');
    await keys(page, 'Enter');
    await page.getByRole('region', { name: '1 on hold' }).waitFor();
    expect(await held.getByRole('rowheader').allInnerTexts()).toEqual(['2']);
  });
});

describe('a change before the lot is called', () => {
  it('amends, divides, joins, moves and withdraws a lot from its own page', async () => {
    const page = await newPage(house.browser);
    const open = async (lotNo: string) => {
      await page.goto(`${house.server.hallUrl}/intake/lot/${lotNo}`);
      await page.getByText('Saved').waitFor();
    };
    await open('1');
    await page.getByRole('textbox', { name: 'Pieces', exact: true }).fill('10');
    await page.getByRole('button', { name: 'Save the change' }).click();
    await row(page, '1').getByText('10 pieces').waitFor();
    await row(page, '1').getByText('8.00 each, 80.00 for the lot').waitFor();

    await open('1');
    await page.getByLabel('Pieces of each part').fill('4, 5');
    await page.getByRole('button', { name: 'Divide the lot' }).click();
    await page.getByText('Lot 1 has 10 pieces, but the parts make 9').waitFor();
    expect(await page.getByLabel('Pieces of each part').inputValue()).toBe('4, 5');
    await page.getByLabel('Pieces of each part').fill('4, 6');
    await page.getByRole('button', { name: 'Divide the lot' }).click();
    await row(page, '1A').getByText('4 pieces').waitFor();
    await row(page, '1B').getByText('6 pieces').waitFor();

    await open('1A');
    await page.getByLabel('Number of the other lot').fill('1B');
    await page.getByRole('button', { name: 'Join the lots' }).click();
    await row(page, '1A').getByText('10 pieces').waitFor();
    await open('1A');
    await page.getByLabel('Pieces of each part').fill('4, 6');
    await page.getByRole('button', { name: 'Divide the lot' }).click();

    // No number comes back: the parts of a part have letters of their own.
    await row(page, '1D').waitFor();
    await open('1D');
    await page.getByLabel('Seller number').fill('77');
    await page.getByRole('button', { name: 'Move the lot' }).click();
    await page.getByText('There is no seller number 77').waitFor();

    await page.getByLabel('Why it is withdrawn').fill('Goes home');
    await page.getByRole('button', { name: 'Withdraw the lot' }).click();
    await row(page, '1D').getByText('withdrawn').waitFor();
    await open('1D');
    expect(await page.getByRole('button', { name: 'Divide the lot' }).count()).toBe(0);
  });
});

describe('somebody new', () => {
  it('is enrolled in one short form, with a wrong date said at its field and nothing typed lost', async () => {
    const page = await atTheBox();
    await checkIn(page, 'Tolú Adé');
    await page.getByLabel('Phone').fill('307-555-0199');
    await page.getByLabel('Licence expires').fill('3.12.2026');
    await keys(page, 'Enter');
    await page.getByText('3.12.2026 can be Mar 12, 2026 or Dec 3, 2026: write the month as a word.').waitFor();
    expect(await page.getByLabel('Full name').inputValue()).toBe('Tolú Adé');
    expect(await page.getByLabel('Phone').inputValue()).toBe('307-555-0199');
    await page.getByLabel('Licence expires').fill('2026-12-31');
    await keys(page, 'Enter');
    await page.getByRole('textbox', { name: 'Seller number' }).waitFor();
    await keys(page, '60', 'Enter');
    await page.getByRole('heading', { name: 'Tolú Adé' }).waitFor();
    await page.goto(`${house.server.hallUrl}/intake`);
    await page.getByText('Saved').waitFor();
    await checkIn(page, 'tolu');
    await page.getByRole('heading', { name: 'Tolú Adé' }).waitFor();
  });
});

describe('two tables at once', () => {
  it('each sees the lots of the other without a key', async () => {
    const [first, second] = [await newPage(house.browser), await newPage(house.browser)];
    for (const page of [first, second]) {
      await page.goto(`${house.server.hallUrl}/intake/seller/9`);
      await page.getByText('Saved').waitFor();
    }
    for (const [here, there, pieces] of [
      [first, second, '17'],
      [second, first, '19'],
    ] as const) {
      await here.getByRole('combobox', { name: 'Goods' }).focus();
      await keys(here, 'ra', 'Enter', pieces, 'Enter', 'm', 'Enter', '2', 'Enter');
      await here.getByText(`is in: Raccoon, ${pieces}`).waitFor();
      const from = performance.now();
      await table(there).getByText(`${pieces} pieces, M, II`).waitFor();
      // The second is a promise about an idle machine, so it is held to only when asked for.
      if (process.env.PELTRY_TIMED) expect(performance.now() - from).toBeLessThanOrEqual(1000);
    }
  });
});

describe('a page that is a moment old when it begins to listen', () => {
  it('reads anew what came in meanwhile, also beside a page that listens already', async () => {
    const first = await newPage(house.browser);
    const beside = await first.context().newPage();
    const address = `${house.server.url}/intake/seller/9`;
    for (const [page, pieces] of [
      [first, '23'],
      [beside, '25'],
    ] as const) {
      await page.route(address, async (route) => {
        const drawn = await route.fetch();
        await checkedInElsewhere(pieces);
        await route.fulfill({ response: drawn });
      });
      await page.goto(address);
      await table(page).getByText(`${pieces} pieces, M, II`).waitFor();
    }
  });
});

/** A lot of seller 9 from another table. */
async function checkedInElsewhere(count: string): Promise<void> {
  const { url } = house.server;
  const headers = { 'content-type': 'application/json', origin: url, 'x-station': 'intake' };
  const answer = await fetch(`${url}/api/commands/lot.add`, {
    method: 'POST',
    headers: { ...headers, 'idempotency-key': `elsewhere-${count}` },
    body: JSON.stringify({ saleId: 1, sellerNo: 9, goods: 'raccoon', count, size: 'M', grade: 'II' }),
  });
  expect(answer.status).toBe(200);
}

describe('partners, and furs brought by somebody else', () => {
  it('share a number by their parts, and who brought the furs is written down', async () => {
    const page = await atTheBox();
    await checkIn(page, 'Ivy Kern');
    await page.getByLabel('Full name').waitFor();
    await keys(page, 'Enter');
    await page.getByRole('textbox', { name: 'Seller number' }).waitFor();
    await page.getByRole('combobox', { name: 'Add a partner' }).focus();
    await checkIn(page, 'ebner');
    await page.getByLabel('Parts of Ivy Kern').fill('none');
    await page.getByLabel('Parts of Dot Ebner').fill('2');
    await page.getByLabel('Brought by somebody else').fill('Gus Hale, with a signed letter');
    await page.getByRole('textbox', { name: 'Seller number' }).fill('70');
    await keys(page, 'Enter');
    // The field's own label says that its text is wrong once the answer is there.
    await page.locator('.party .field-error').waitFor();
    expect(await page.getByLabel('Brought by somebody else').inputValue()).toBe('Gus Hale, with a signed letter');
    await page.getByLabel('Parts of Ivy Kern').fill('1');
    await keys(page, 'Enter');
    await page.getByRole('heading', { name: 'Ivy Kern and Dot Ebner' }).waitFor();
    await page.getByText('Ivy Kern, 1 part.').waitFor();
    await page.getByText('Dot Ebner, 2 parts.').waitFor();
    await page.getByText('Brought by Gus Hale, with a signed letter').waitFor();
    // A guest among the partners makes the number a guest's.
    await page.getByText('This number sells at the guests’ rates.').waitFor();
  });
});

describe.each(REFUSALS)('a browser whose storage fails: %s', (refusal) => {
  it('takes a lot in all the same, or says that it is not saved and gives it back', async () => {
    const page = await newPage(house.browser, { expected: [/net::ERR_FAILED/] });
    await withoutStorage(page, refusal);
    await page.goto(`${house.server.hallUrl}/intake/seller/9`);
    const goods = page.getByRole('combobox', { name: 'Goods' });
    await goods.and(page.locator(':focus')).waitFor();
    const before = await table(page).getByRole('row').count();
    await keys(page, 'ra', 'Enter', '7', 'Enter', 'xl', 'Enter', 'ii', 'Enter');
    await expect.poll(() => table(page).getByRole('row').count()).toBe(before + 1);

    await page.route('**/api/commands/*', (route) => route.abort());
    await keys(page, 'mu', 'Enter', '8', 'Enter', 'm', 'Enter', 'i', 'Enter');
    await page.getByText('This browser could not keep the entry. It is being sent directly').waitFor();
    await page.locator('form').getByText('Not saved: the server does not answer.').waitFor();
    expect(await page.getByLabel('Pieces', { exact: true }).inputValue()).toBe('8');
    await page.locator('.saved-mark .mark', { hasText: 'Not saved' }).waitFor();
    // What only this page has is not put away by having read of it.
    expect(await page.getByRole('button', { name: 'I have read it' }).count()).toBe(0);

    await page.unroute('**/api/commands/*');
    await page.getByRole('button', { name: 'Save the lot' }).click();
    await expect.poll(() => table(page).getByRole('row').count()).toBe(before + 2);
    await page.locator('.saved-mark [data-tone=done]').waitFor();
  });
});
