// Long because one sale is paid out from its first sheet to its closing.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { strFromU8, unzipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { wordsOf } from '#tests/screens/support/http.ts';
import { countKeys, tabTo } from '#tests/screens/support/keys.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { exportFiles, importFiles, withBook, withoutJournal } from '#tests/support/exchange.ts';

/** Sellers 1 to 3 of a called sale: seller 1 has sold, seller 2 has a lot to come, seller 3 only owes. */

const house = testHouse((bookFile) => {
  const filled = fillSellingBook(bookFile, { lots: 3 });
  filled.must('outcome.record', { saleId: 1, lotNo: '3', kind: 'sold', price: '13.25', buyerNo: 10 });
  filled.must('outcome.record', { saleId: 1, lotNo: '2', kind: 'passed', price: null, buyerNo: null });
  filled.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const row = (page: Page, sellerNo: number) =>
  page.getByRole('row').filter({ has: page.getByRole('rowheader', { name: String(sellerNo), exact: true }) });

function issuedModels(): string[] {
  const book = openBook(house.bookFile);
  const models = book.sqlite.prepare('SELECT model FROM settlement ORDER BY number').pluck().all() as string[];
  book.close();
  return models;
}

async function atPayout(): Promise<Page> {
  const page = await newPage(house.browser);
  await page.goto(`${house.server.hallUrl}/payout`);
  return page;
}

/** The text of the paper that a press on a link hands to the browser. */
async function paperBehind(page: Page, link: string): Promise<{ readonly name: string; readonly text: string }> {
  const coming = page.waitForEvent('download');
  await tabTo(page, page.getByRole('link', { name: link }));
  await page.keyboard.press('Enter');
  const paper = await coming;
  const text = execFileSync('pdftotext', ['-layout', await paper.path(), '-'], { encoding: 'utf8' });
  return { name: paper.suggestedFilename(), text };
}

describe('the screens', () => {
  it('shows every net at 320 px without scrolling its table', async () => {
    const page = await newPage(house.browser, { viewport: { width: 320, height: 700 } });
    await page.goto(`${house.server.hallUrl}/payout`);
    const hidden = await page
      .getByRole('region', { name: 'Seller numbers' })
      .evaluate((table) => table.scrollWidth - table.clientWidth);
    expect(hidden).toBeLessThanOrEqual(0);
  });
});

describe('the treasurer’s table', () => {
  it('says in words how far each number is, and keeps what still changes out of the sums', async () => {
    const html = await (await fetch(`${house.server.url}/payout`)).text();
    const rows = html
      .split('<tr')
      .slice(2)
      .map((one) => wordsOf(one.slice(0, one.indexOf('</tr>'))));
    // 32 × 13.25 = 424.00 less 6 % 25.44, the lot 0.25 and the number 5.00.
    expect(rows[0]).toMatch(/ready ?, 1 sold\s+393\.31$/);
    expect(rows[1]).toMatch(/1 lots? still to be called\s+-5\.00\s+so far$/);
    expect(rows[2]).toMatch(/nothing sold\s+-6\.25\s+owes us$/);
    const aside = wordsOf(html.slice(html.indexOf('<aside')));
    expect(aside).toMatch(/393\.31[\s\S]*Sellers owe the association 6\.25\.[\s\S]*1 of 3/);
  });
});

describe('the sheets', () => {
  it('say a bill plainly, and give a preview that is none of the issued ones', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/payout/3`);
    expect(await page.locator('.sheet').innerText()).toMatch(/owe[\s\S]*6\.25/i);
    const paper = await paperBehind(page, 'Print a preview');
    expect(paper.name).toBe('settlement-sheet-1-seller-3.pdf');
    expect(paper.text).toContain('PREVIEW');
    expect(paper.text).toContain('6.25');
    expect(issuedModels()).toEqual([]);
  });

  it('refuse to be issued while a lot of theirs is to come, and nothing is issued', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/payout/2`);
    await button(page, 'Issue the sheet').click();
    await page.getByText('Lot 1 is of seller number 2 and still to be called.').waitFor();
    expect(issuedModels()).toEqual([]);
  });

  it('are issued all that can be, printed in one paper by keyboard alone, and never change after', async () => {
    const page = await atPayout();
    const keys = await countKeys(page);
    await tabTo(page, button(page, 'Issue the 2 sheets that are ready'));
    await page.keyboard.press('Enter');
    await page.getByText('Issue 2 sheets now? 1 seller would owe 6.25.').waitFor();
    await page.getByText('1 seller is skipped, with lots that have not been called.').waitFor();
    expect(issuedModels()).toEqual([]);
    await tabTo(page, button(page, 'Yes, issue 2 sheets'));
    await page.keyboard.press('Enter');
    await page.getByText('2 of 3 sheets issued').waitFor();
    const issued = issuedModels();
    expect(issued).toHaveLength(2);
    // Two sheets are drawn faster than a page asks how far they are: here the paper waits until the bar was seen.
    let seen = () => {};
    const held = new Promise<void>((go) => {
      seen = go;
    });
    await page.route('**/api/papers/progress?*', (route) => route.fulfill({ json: { done: 1, of: 2 } }));
    await page.route('**/api/papers/sheets?*', (route) => held.then(() => route.continue()));
    const drawn = paperBehind(page, 'Print all issued sheets');
    const bar = page.getByRole('progressbar', { name: 'Sheets drawn' });
    await bar.waitFor();
    expect(await bar.evaluate((one: HTMLProgressElement) => [one.value, one.max])).toEqual([1, 2]);
    seen();
    const paper = await drawn;
    await bar.waitFor({ state: 'detached' });
    expect(await page.getByText('drawing the paper').count()).toBe(0);
    expect(keys.pointed()).toBe(0);
    expect(paper.name).toBe('settlement-sheets-1.pdf');
    expect(paper.text).toContain('393.31');
    expect(paper.text).toContain('6.25');

    const right = { lotId: 3, replacesId: 1, kind: 'sold', price: '14.00', buyerNo: 10, reason: 'price misheard' };
    const headers = { 'idempotency-key': 'payout-put-right', 'x-station': 'block', origin: house.server.url };
    const answer = await page.request.post(`${house.server.url}/api/commands/outcome.correct`, {
      data: right,
      headers,
    });
    expect(await answer.json()).toMatchObject({ ok: true });
    await page.reload();
    expect(await row(page, 1).innerText()).toMatch(
      /no longer right, 1 sold\s+Sheet 1 says \$393\.31; now \$415\.87\. Issue a correction\.\s+415\.87$/,
    );
    expect(issuedModels()).toEqual(issued);
  });
});

/** With a lot left the bidding ends only where its number is typed, and no button for it is the filled one. */
async function endBidding(page: Page): Promise<void> {
  const end = button(page, 'End bidding');
  expect(await page.locator('button.act').count()).toBe(0);
  await page.getByText('End bidding…').click();
  await end.click();
  await page.getByText('1 lot has not been called. Type 1 to end the bidding anyway').waitFor();
  await page.getByLabel('Lots not called').fill('12');
  await end.click();
  await expect.poll(() => button(page, 'End bidding').isEnabled()).toBe(true);
  expect(await page.getByLabel('Lots not called').inputValue()).toBe('12');
  expect(await axe(page)).toEqual([]);
  await page.getByLabel('Lots not called').fill('1');
  await end.click();
  await button(page, 'Close the sale').waitFor();
}

describe('the stage of the sale', () => {
  it('goes back only with a reason, and the last number can be issued once the sale settles', async () => {
    const page = await newPage(house.browser);
    await page.goto(house.server.hallUrl);
    await page.getByText('Go back to the intake').first().click();
    await button(page, 'Go back to the intake').click();
    await page.locator('.field-error').waitFor();
    await endBidding(page);
    await page.goto(`${house.server.hallUrl}/payout`);
    await page.getByText('2 of 3 sheets issued').waitFor();
    // Its lot 1 was not called: nothing is offered for everybody, and its own page asks.
    expect(await button(page, /^Issue the/).count()).toBe(0);
    await page.goto(`${house.server.hallUrl}/payout/2`);
    const asked = page.getByText('1 lot of seller number 2 has not been called: 1. Issue the sheet anyway?');
    await button(page, 'Issue the sheet').click();
    await asked.waitFor();
    await button(page, 'No, go back').click();
    await asked.waitFor({ state: 'detached' });
    expect(issuedModels()).toHaveLength(2);
    await button(page, 'Issue the sheet').click();
    await button(page, 'Yes, issue it').click();
    await page.getByText('Print the sheet').waitFor();
    await page.goto(`${house.server.hallUrl}/payout`);
    await page.getByText('3 of 3 sheets issued').waitFor();
  });
});

describe('the treasurer’s way', () => {
  let acts = 0;
  const api = async (page: Page, command: string, data: unknown) => {
    acts += 1;
    const station = command.startsWith('outcome') ? 'block' : 'office';
    const headers = { 'idempotency-key': `treasurer-way-${acts}`, 'x-station': station, origin: house.server.url };
    const answer = await page.request.post(`${house.server.url}/api/commands/${command}`, { data, headers });
    expect(await answer.json()).toMatchObject({ ok: true });
  };

  it('corrects the sheet that is no longer right, and the paper shows before, after and what is to pay', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/payout/1`);
    await page.getByLabel('Why it is corrected').fill('price of lot 3 misheard');
    await button(page, 'Issue the correction sheet').click();
    await page.getByRole('heading', { name: 'Correction of sheet 1' }).waitFor();
    const paper = await paperBehind(page, 'Print the sheet');
    // 32 × 14.00 = 448.00 less 26.88, 0.25 and 5.00.
    for (const words of ['393.31', '415.87', '+22.56', 'price of lot 3 misheard']) expect(paper.text).toContain(words);
    // One paper, one amount to pay: nothing was paid yet, so it is all of the net.
    expect(paper.text.match(/(to be paid to you|pay back)[^\n]*/gi)?.map((line) => line.replace(/\s+/g, ' '))).toEqual([
      'to be paid to you 415.87 USD',
    ]);
    expect(paper.text).toMatch(/Net proceeds, corrected\s+415\.87/);
    expect(await page.getByText('To be paid to you', { exact: true }).count()).toBe(0);
    const old = await paperBehind(page, 'Print sheet 1 as it was');
    expect(old.text).toContain('393.31');
    expect(old.text).not.toContain('415.87');
  });

  it('does not offer payment while a number waits for its buyers, and says whose money it waits for', async () => {
    const page = await newPage(house.browser);
    const policy = (sellersWait: boolean) => api(page, 'payout.policy', { saleId: 1, sellersWait, statementDays: 10 });
    await policy(true);
    await page.goto(`${house.server.hallUrl}/payout/1`);
    await page.getByText('This number waits for the money of buyer 10: take it at the Till first.').waitFor();
    await page.getByText('415.87 to pay').waitFor();
    expect(await page.getByText('Pay Ada Birch by hand').count()).toBe(0);
    expect(await button(page, 'Pay by check').count()).toBe(0);
    await policy(false);
    await page.reload();
    await page.getByText('Pay Ada Birch by hand').waitFor();
  });

  it('pays by hand what is still owed, and a second browser is told that it is paid', async () => {
    const [page, other] = [await newPage(house.browser), await newPage(house.browser)];
    // The second does not hear that the first was quicker.
    await other.route('**/api/live*', (route) => route.abort());
    for (const one of [page, other]) {
      await one.goto(`${house.server.hallUrl}/payout/1`);
      await one.getByText('Pay Ada Birch by hand').click();
    }
    await page.getByLabel('Amount', { exact: true }).fill('15.87');
    await button(page, 'Pay 15.87').click();
    await page
      .getByText('415.87 is due, and you typed 15.87. That leaves 400.00 due. Pay it as a part payment?')
      .waitFor();
    await button(page, 'Yes, pay it').click();
    await page.getByText('400.00 to pay').waitFor();
    await button(other, 'Pay 415.87').click();
    await other.getByText(/^Ada Birch is still owed \$400\.00 .*: \$15\.87 was paid at .*Pay no more/).waitFor();
    await page.reload();
    await page.getByText('400.00 to pay').waitFor();
  });

  it('tells the slower of two that the money is paid, also when nothing is due any more', async () => {
    const [page, other] = [await newPage(house.browser), await newPage(house.browser)];
    for (const one of [page, other]) {
      await one.goto(`${house.server.hallUrl}/payout/1`);
      await one.locator('.saved-mark').waitFor();
      await one.getByText('Pay Ada Birch by hand').click();
    }
    let letGo = () => {};
    const held = new Promise<void>((resolve) => {
      letGo = resolve;
    });
    await other.route('**/api/commands/payment.record', (route) => held.then(() => route.continue()));
    await button(other, 'Pay 400.00').click();
    await button(page, 'Pay 400.00').click();
    await page.getByText('400.00 paid to Ada Birch.').waitFor();
    // The page has read anew that nothing is due before its own entry is answered.
    await other.getByText('even', { exact: true }).waitFor();
    letGo();
    await other.getByText(/^Ada Birch is already paid: \$400\.00 was paid at /).waitFor();
    expect(await other.getByText('400.00 paid to Ada Birch.').count()).toBe(0);
    const book = openBook(house.bookFile);
    const paymentId = book.sqlite.prepare('SELECT max(id) FROM payment').pluck().get();
    book.close();
    await api(page, 'payment.void', { paymentId, reason: 'a check is written instead' });
  });

  it('writes the checks, prints their stubs, and writes a lost one anew', async () => {
    const page = await atPayout();
    // A blank in it is told at the field, before anything is asked.
    await page.getByLabel('Number on the check').fill('10 41');
    await button(page, 'Write the checks of 1 seller').click();
    await page.locator('.field[data-wrong]').getByText('in digits only').waitFor();
    expect(await page.getByText(/^Write 1 check from/).count()).toBe(0);
    await page.getByLabel('Number on the check').fill('1041');
    await button(page, 'Write the checks of 1 seller').click();
    const question = page.getByText('Write 1 check from number 1041 on, 400.00 in all?');
    await question.waitFor();
    // It was asked of that number: with another it is asked anew.
    await page.getByLabel('Number on the check').fill('1040');
    await question.waitFor({ state: 'detached' });
    await page.getByLabel('Number on the check').fill('1041');
    await button(page, 'Write the checks of 1 seller').click();
    await question.waitFor();
    expect(await axe(page)).toEqual([]);
    await button(page, 'Yes, write 1 check').click();
    await page.getByText('issued, paid').waitFor();
    await page.goto(`${house.server.hallUrl}/payout/checks`);
    const stub = await paperBehind(page, 'Print the stubs');
    expect(stub.text).toMatch(/This check\s+400\.00/);
    await page.getByLabel('Which check').selectOption({ label: '1041, Ada Birch' });
    await page.getByLabel('Why it is void').fill('spoiled in the printer');
    await page.getByLabel('Number of the new check').fill('1042');
    await button(page, 'Write it anew').click();
    await page.getByText('in place of 1041').waitFor();
    const register = await page.getByRole('region', { name: 'List' }).innerText();
    for (const words of ['written anew as 1042', '1 check good', '400.00']) expect(register).toContain(words);
  });

  it('takes in what sellers owe, is told what keeps the sale open, and closes it at zero', async () => {
    const page = await newPage(house.browser);
    for (const sellerNo of [2, 3]) {
      await page.goto(`${house.server.hallUrl}/payout/${sellerNo}`);
      await page.getByText(/^Take in what/).click();
      await button(page, /^Take in \d/).click();
      await page.getByText('even', { exact: true }).waitFor();
    }
    await page.goto(`${house.server.hallUrl}/payout/balance`);
    await page.getByRole('link', { name: 'buyer 10 still owes 448.00' }).waitFor();
    await api(page, 'payment.record', {
      saleId: 1,
      direction: 'in',
      buyerNo: 10,
      method: 'cash',
      amount: '448.00',
    });
    await page.goto(house.server.hallUrl);
    await button(page, 'Close the sale').click();
    await page.getByText('lot 1 was never called').waitFor();
    await api(page, 'sale.stage', { saleId: 1, stage: 'selling', reason: 'lot 1 was left' });
    await page.reload();
    await page.getByText('Withdraw the lot that is left').first().click();
    await page.getByLabel('Why?').first().fill('the seller took it home');
    await button(page, 'Withdraw the lot that is left').click();
    await page.getByText('still to be called:').waitFor({ state: 'detached' });
    // With none left one press is enough, and the button is the filled one.
    await page.locator('button.act', { hasText: 'End bidding' }).click();
    await page.getByText('Buyer 10 has bought and has no invoice. Issue what is missing at the Till.').waitFor();
    await button(page, 'Close the sale').click();
    await page.getByText('The sale cannot be closed yet. Buyer 10').waitFor();
    await api(page, 'invoice.issue', { saleId: 1, buyerNo: 10 });
    // Lot 1 stands on no sheet as withdrawn yet.
    await api(page, 'settlement.correct', { saleId: 1, sellerNo: 2, reason: 'lot 1 went home' });
    await page.reload();
    await page.getByText('You are asked about it before the sale closes.').waitFor();
    await tabTo(page, button(page, 'Close the sale'));
    await page.keyboard.press('Enter');
    // The question has the focus: its two answers are next.
    const question = page.getByRole('alert').filter({ hasText: 'Buyer 10 has not picked up lot' });
    await expect.poll(() => question.evaluate((box) => box === document.activeElement)).toBe(true);
    expect(await axe(page)).toEqual([]);
    await tabTo(page, button(page, 'Yes: Close the sale'));
    await page.keyboard.press('Enter');
    await page.getByText('closed', { exact: true }).first().waitFor();
    await page.goto(`${house.server.hallUrl}/payout/balance`);
    await page.getByText('Every line is at zero').waitFor();
    await page.getByText(/^Closed by/).waitFor();
    const report = await page.request.get(`${house.server.url}/api/papers/payout/closing-report?sale=1`);
    expect(report.headers()['content-type']).toBe('application/pdf');
  });

  it('saves the whole sale as one file, which another book takes in', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/payout/after`);
    const coming = page.waitForEvent('download');
    await page.getByRole('link', { name: 'Save the whole sale' }).click();
    const zip = unzipSync(readFileSync(await (await coming).path()));
    const files = Object.fromEntries(Object.entries(zip).map(([name, bytes]) => [name, strFromU8(bytes)]));
    withBook((book) => {
      const { saleId } = importFiles(book, files);
      expect(withoutJournal(exportFiles(book, saleId))).toEqual(withoutJournal(files));
    });
  });
});
