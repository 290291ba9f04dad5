import { describe, expect, it } from 'vitest';
import { yearHall } from '#tests/papers/support/year.ts';
import { newPage } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { raw, wordsOf } from '#tests/screens/support/http.ts';
import { fetched, paperBehind } from '#tests/screens/support/papers.ts';
import { workerIn } from '#tests/screens/support/worker.ts';

/** Two sales of 2026 and one of 2027; the workers are entered in the last test only. */
const house = testHouse((bookFile) => yearHall(bookFile).book.close());

describe('the page of the year', () => {
  it('shows the year that is chosen, with its papers and files', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/payout/year?sale=2`);
    await page.getByRole('heading', { name: 'The year 2026', level: 1 }).waitFor();
    expect(await page.getByRole('row', { name: /^Ada Birch/ }).textContent()).toContain('268.75268.75');
    expect(await page.getByRole('combobox', { name: 'Year' }).locator('option').allTextContents()).toEqual([
      '2027',
      '2026',
    ]);
    expect(await paperBehind(page, /Print: Sales-tax worksheet/)).toContain('In all 315.11 105.00 20.49 440.60');
    const csv = await page.getByRole('link', { name: 'Save as CSV: The year by person' }).getAttribute('href');
    const file = await fetched(page, csv ?? '');
    expect([file.status, file.type]).toEqual([200, expect.stringMatching(/^text\/csv/)]);
    expect(Buffer.from(file.bytes).toString()).toContain(',USD,66.73,6.67,3.50,0.00,56.56,0.00\r\n');
    await page.getByRole('combobox', { name: 'Year' }).selectOption('2027');
    await page.getByRole('button', { name: 'Show this year' }).click();
    await page.getByRole('heading', { name: 'The year 2027', level: 1 }).waitFor();
    expect(await page.getByRole('row', { name: /^Cal Dunn/ }).textContent()).toContain('56.56');
    await page.getByText('No buyer paid more than 10,000.00 in cash within twelve months that end in 2027.').waitFor();
  });

  it('says that a year is empty, and asks which year is meant where none is named', async () => {
    const page = wordsOf(await (await fetch(`${house.server.url}/payout/year?year=2019`)).text());
    expect(page).toContain('nobody was paid as a seller in 2019');
    for (const address of ['year-by-person', 'large-cash/csv?sale=1', 'sales-tax?year=26']) {
      const answer = await fetch(`${house.server.url}/api/papers/${address}`);
      expect(answer.status, address).toBe(404);
      expect(await answer.json()).toMatchObject({ detail: 'Say of which year, such as 2026.' });
    }
  });

  it('prints the sales tax of one sale from the page of what comes afterwards', async () => {
    const page = await newPage(house.browser);
    await page.goto(`${house.server.hallUrl}/payout/after?sale=2`);
    expect(await paperBehind(page, /sales tax of this sale/)).toContain('In all 105.00 0.00 6.83 111.83');
  });

  it('is for Payout and Office, and for no other station', async () => {
    const as = (name: string, station: 'till' | 'payout' | 'office' | 'intake') =>
      `peltry-plain=${workerIn(house.bookFile, name, { stations: [station] }).token}`;
    const cookies = [as('Una', 'office'), as('Ove', 'payout'), as('Ira', 'till'), as('Nan', 'intake')];
    for (const path of [
      '/payout/year',
      '/api/papers/large-cash?year=2026',
      '/api/papers/year-by-person/csv?year=2026',
    ]) {
      const asked = cookies.map((cookie) => raw(`${house.server.url}${path}`, { headers: { cookie } }));
      const open = (await Promise.all(asked)).map(({ status }) => status === 200);
      expect(open, path).toEqual([true, true, false, false]);
    }
  });
});
