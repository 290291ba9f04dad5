import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { countKeys, tabTo } from '#tests/screens/support/keys.ts';
import { isSaid, refuseUnseen } from '#tests/screens/support/refused.ts';
import { fillSellingBook, type SellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { tempFile } from '#tests/support/temp.ts';

/** Buyers 10 and 11 have bought; seller 1 stands at the till too, as buyer 12. */
const bookFile = tempFile();
const MOST_KEYS = 8;
let filled: SellingBook;
let browser: Browser;
let server: Server;

beforeAll(async () => {
  filled = fillSellingBook(bookFile, { lots: 6 });
  // Lots 3 and 6 are 32 muskrats each, lot 1 is 12 raccoons and lot 2 is 5 beavers.
  filled.must('outcome.record', { saleId: 1, lotNo: '3', kind: 'sold', price: '13.25', buyerNo: 10 });
  filled.must('outcome.record', { saleId: 1, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 11 });
  server = await startServer({ bookFile });
  browser = await theBrowser();
});

afterAll(async () => {
  await server?.stop();
  filled?.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const owing = (page: Page) => page.locator('.sheet .figure-large').textContent();

function paymentsInBook(buyerNo: number) {
  const book = openBook(bookFile);
  const { payments } = saleFacts(book, 1);
  book.close();
  return payments.filter((one) => one.buyerNo === buyerNo).map(({ method, amountCents }) => [method, amountCents]);
}

async function open(path: string, viewport = { width: 1280, height: 800 }): Promise<Page> {
  const page = await newPage(browser, { viewport });
  await page.goto(`${server.hallUrl}${path}`);
  return page;
}

describe('the screens', () => {
  it('shows what every buyer owes at 320 px without scrolling the table', async () => {
    const page = await open('/till', { width: 320, height: 700 });
    const table = page.getByRole('region', { name: 'Buyers' });
    expect(await table.evaluate((one) => one.scrollWidth - one.clientWidth)).toBeLessThanOrEqual(0);
  });
});

describe('a cash payment', () => {
  it('takes at most eight keys from the buyer number on, shows the change, and is one payment', async () => {
    const page = await open('/till');
    await page.locator('.saved-mark').waitFor();
    const count = await countKeys(page);
    await page.keyboard.type('10');
    await page.keyboard.press('Enter');
    await page.getByLabel('Cash given').waitFor();
    await page.waitForFunction(() => document.activeElement?.closest('form')?.getAttribute('aria-label') === 'Payment');
    // 32 × 13.25 = 424.00.
    expect(await owing(page)).toBe('424.00');
    await page.keyboard.type('440');
    await page.keyboard.press('Enter');
    await page.getByText('424.00 taken. Change 16.00.').waitFor();
    await page.getByText('Owing').first().waitFor();
    await expect.poll(() => owing(page)).toBe('0.00');
    expect(count.pressed()).toBeLessThanOrEqual(MOST_KEYS);
    expect(count.pointed()).toBe(0);
    expect(paymentsInBook(10)).toEqual([['cash', 42_400]]);
  });

  it('that does not reach says so, keeps what was typed, and records nothing', async () => {
    const page = await open('/till/11');
    await page.getByLabel('Cash given').fill('100');
    await button(page, 'Take the payment').click();
    await page.locator('.field-error').waitFor();
    expect(await page.locator('.field-error').textContent()).toContain('100.00 does not reach 120.00');
    expect(await page.getByLabel('Cash given').inputValue()).toBe('100');
    expect(paymentsInBook(11)).toEqual([]);
  });

  it('takes what was said before off the screen, and what was taken once it is void', async () => {
    const page = await open('/till/11');
    await page.locator('.saved-mark').waitFor();
    await page.getByLabel('Amount taken').fill('no amount');
    await button(page, 'Take the payment').click();
    await page.locator('.field-error').waitFor();
    await page.getByLabel('Amount taken').fill('1.00');
    await button(page, 'Take the payment').click();
    await page.getByText(/Take it as a part payment\?$/).waitFor();
    expect(await page.locator('.field-error').count()).toBe(0);
    await button(page, 'Yes, take it').click();
    const done = page.getByText('1.00 taken.');
    await done.waitFor();
    // Voided at another place: the page hears of it.
    const paymentId = Number(
      await page
        .getByRole('link', { name: /^Receipt \d+$/ })
        .textContent()
        .then((text) => text?.slice(8)),
    );
    filled.must('payment.void', { paymentId, reason: 'typed twice' });
    await done.waitFor({ state: 'detached' });
    await page.getByText('voided: typed twice').waitFor();
    expect(paymentsInBook(11)).toEqual([]);
  });
});

describe('a ticket scanned at the hand-over', () => {
  it('that was refused is marked, so that the next one takes its place', async () => {
    const page = await open('/till/10/hand-over');
    await page.locator('.saved-mark').waitFor();
    const box = page.getByLabel('Scan a ticket, or type a lot number');
    await box.focus();
    await page.keyboard.type('S1LOT1');
    await page.keyboard.press('Enter');
    await page.getByText('Lot 1 is not among these lots').waitFor();
    await page.keyboard.type('S1LOT3');
    await page.keyboard.press('Enter');
    await page.getByText('Lot 3 ticked: Muskrat, 32 pieces.').waitFor();
    expect(await box.inputValue()).toBe('');
  });
});

describe('a refusal about a field that is not drawn', () => {
  it('is said at the head of the form', async () => {
    const details = await open('/till/10/details');
    await details.locator('.saved-mark').waitFor();
    const exempt = await refuseUnseen(details, 'buyer.amend', 'exemptNo');
    await button(details, 'Keep the details').click();
    await isSaid(details, exempt);
    // It goes to its field as soon as that is there.
    await details.getByLabel('Pays no sales tax').check();
    await details.locator('.field-error').filter({ hasText: exempt }).waitFor();
    expect(await details.getByText(exempt).count()).toBe(1);

    // Checks are counted only in a drawer that is open.
    const drawer = await open('/till/drawer');
    await drawer.locator('.saved-mark').waitFor();
    const checks = await refuseUnseen(drawer, 'drawer.record', 'checks');
    await drawer.getByRole('form', { name: 'Drawer' }).getByRole('button').click();
    await isSaid(drawer, checks);
  });
});

describe('two cashiers with one invoice', () => {
  it('take it once: the second is asked, keeps what was typed, and takes more only after a yes', async () => {
    const page = await newPage(browser);
    // This page does not hear that the other cashier was quicker.
    await page.route('**/api/live*', (route) => route.abort());
    await page.goto(`${server.hallUrl}/till/11`);
    await page.getByLabel('Reference').fill('envelope 3');
    filled.must('payment.record', { saleId: 1, direction: 'in', buyerNo: 11, method: 'card', amount: '120.00' });

    await button(page, 'Take the payment').click();
    const question = page.getByText(
      /^Buyer 11 owes nothing, and you typed \$120\.00\. .* \$120\.00 was taken .*\. Take it anyway\?$/,
    );
    await question.waitFor();
    expect(await axe(page)).toEqual([]);
    await button(page, 'Cancel').click();
    await question.waitFor({ state: 'detached' });
    expect(await page.getByLabel('Reference').inputValue()).toBe('envelope 3');
    expect(paymentsInBook(11)).toEqual([['card', 12_000]]);

    await page.getByLabel('Amount taken').fill('30');
    await button(page, 'Take the payment').click();
    // By what the page had read it is a part; the book knows better.
    await page.getByText(/Take it as a part payment\?$/).waitFor();
    await button(page, 'Yes, take it').click();
    await page.getByText(/That is \$30\.00 too much\. .* Take it anyway\?$/).waitFor();
    await button(page, 'Yes, take it').click();
    await page.getByText('30.00 taken.').waitFor();
    expect(paymentsInBook(11)).toEqual([
      ['card', 12_000],
      ['cash', 3000],
    ]);
  });
});

describe('a buyer’s way', () => {
  it('goes from the register over part cash and part check to nothing owing; a voided payment owes again', async () => {
    const page = await open('/till');
    await page.getByRole('combobox', { name: 'Who wants to buy?' }).fill('Zoë Łącka');
    // Enter in a box whose list was closed shows it again.
    await page.keyboard.press('Escape');
    await page.getByRole('option', { name: /Enrol/ }).waitFor({ state: 'hidden' });
    await page.keyboard.press('Enter');
    await page.getByRole('option', { name: /Enrol/ }).click();
    await button(page, 'Enrol').click();
    await page.getByLabel('Fur buyer’s licence').fill('FB-7');
    await page.getByLabel('Cleared to buy').check();
    await button(page, 'Give a buyer number').click();
    await page.getByText('Zoë Łącka is buyer 21.').waitFor();

    filled.must('outcome.record', { saleId: 1, lotNo: '2', kind: 'sold', price: '20.50', buyerNo: 21 });
    await page.getByLabel('Buyer number').fill('21');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Buyer 21, Zoë Łącka' }).waitFor();
    // 5 × 20.50 = 102.50.
    await expect.poll(() => owing(page)).toBe('102.50');
    await page.getByLabel('Amount taken').fill('40');
    await button(page, 'Take the payment').click();
    await page
      .getByText('102.50 is due, and you typed 40.00. That leaves 62.50 due. Take it as a part payment?')
      .waitFor();
    await button(page, 'Yes, take it').click();
    await expect.poll(() => owing(page)).toBe('62.50');
    await page.getByLabel('By', { exact: true }).selectOption('Check');
    await page.getByLabel('Reference').fill('1041');
    await button(page, 'Take the payment').click();
    await expect.poll(() => owing(page)).toBe('0.00');
    expect(paymentsInBook(21)).toEqual([
      ['cash', 4000],
      ['check', 6250],
    ]);

    await page.getByText('Void 62.50').click();
    await page.getByLabel('Why it is voided').last().fill('wrong buyer');
    await page.getByRole('listitem').filter({ hasText: 'Void 62.50' }).getByRole('button').click();
    await page.getByText('voided: wrong buyer').waitFor();
    await expect.poll(() => owing(page)).toBe('62.50');
    expect(paymentsInBook(21)).toEqual([['cash', 4000]]);
  });

  it('a clearance is taken back and given by name', async () => {
    const page = await open('/till/20');
    await page.getByText('not cleared').waitFor();
    await button(page, 'Clear to buy').click();
    await button(page, 'Take the clearance back').waitFor();
    expect(await page.locator('.buyer-standing').textContent()).toMatch(/^cleared/);
  });

  it('a number that nobody has says so', async () => {
    const page = await open('/till');
    await page.getByLabel('Buyer number').fill('99');
    await page.keyboard.press('Enter');
    await page.getByText('There is no buyer number 99: check the card.').waitFor();
  });
});

describe('the next sale', () => {
  it('moves no station off the one that is being sold by its intake, and by its start only after a question', async () => {
    const next = { likeSaleId: 1, name: 'Next Winter Sale', held_on: '2027-02-27', season: '2026-27' };
    filled.must('sale.next', { ...next, season_closes_on: '' });
    const page = await open('/?sale=2');
    await button(page, 'Open the intake').click();
    await button(page, 'Start the sale').click();
    await page.getByText('Every station then opens Next Winter Sale and leaves Late Winter Sale. Do it now?').waitFor();
    expect(await axe(page)).toEqual([]);
    await button(page, 'No, go back').click();
    await button(page, 'Start the sale').waitFor();
    for (const station of ['/intake', '/block', '/till', '/payout', '/office', '/']) {
      await page.goto(`${server.hallUrl}${station}`);
      await page.locator('.masthead-name', { hasText: 'Late Winter Sale' }).waitFor();
      // By keys: which sales are open, and then the other one by its name.
      await tabTo(page, page.locator('summary', { hasText: '2 sales are open' }));
      await page.keyboard.press('Enter');
      await page.getByText('This page works on Late Winter Sale.').waitFor();
      await tabTo(page, page.getByRole('link', { name: 'Switch to Next Winter Sale, Feb 27, 2027' }));
      await page.keyboard.press('Enter');
      await page.locator('.masthead-name', { hasText: 'Next Winter Sale' }).waitFor();
      expect(new URL(page.url()).search).toBe('?sale=2');
    }
  });

  it('gets as many of last year’s buyers as were seen, after a question', async () => {
    const page = await open('/till?sale=2');
    const many = Number.parseInt((await button(page, /^Register \d+ buyers again$/).innerText()).slice(9), 10);
    await button(page, `Register ${many} buyers again`).click();
    await page.getByText(`Register ${many} buyers under the numbers they had?`).waitFor();
    expect(await axe(page)).toEqual([]);
    // Meanwhile one of them comes to another table.
    const { personId } = filled.must('person.enrol', { name: 'Ivo Jay' });
    filled.must('buyer.register', { saleId: 2, buyerNo: 10, personId });
    await button(page, `Yes, register ${many} buyers`).click();
    await page.getByText(`It is now ${many - 1} buyers, not ${many}. Look at them and answer again.`).waitFor();
    await button(page, `Register ${many - 1} buyers again`).click();
    await button(page, `Yes, register ${many - 1} buyers`).click();
    await page.getByText(`${many - 1} buyers have their number again, not cleared yet.`).waitFor();
  });
});
