import { describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { sellerCode } from '#db/outcome/board-view.ts';
import { axe } from '#tests/screens/support/axe.ts';
import { callLot, openBlock, untilUp } from '#tests/screens/support/block.ts';
import { newPage, pageOfAll } from '#tests/screens/support/browser.ts';
import { testHouse } from '#tests/screens/support/house.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';

const house = testHouse((bookFile) => {
  fillSellingBook(bookFile, { lots: 20, earlier: ['17.75', '18.25'] }).close();
});

/** The code on the receipt of a seller number of the sale that is being sold. */
function codeOf(sellerNo: number): string {
  const book = openBook(house.bookFile);
  try {
    return sellerCode(book, 2, sellerNo);
  } finally {
    book.close();
  }
}

describe('the Board', () => {
  it('shows at once what a lot brought, and the lot that is up', async () => {
    const board = await newPage(house.browser, { viewport: { width: 1920, height: 1080 } });
    await board.goto(`${house.server.hallUrl}/board`);
    const clerk = await newPage(house.browser);
    await openBlock(clerk, house.server.hallUrl);
    await untilUp(clerk, 1);
    await callLot(clerk, '13.25', '10');
    const from = performance.now();
    await board.locator('[data-figure=price]', { hasText: '13.25' }).waitFor();
    // By the clock only where somebody asks for it, on a machine that does nothing else.
    if (process.env.PELTRY_TIMED) expect(performance.now() - from).toBeLessThanOrEqual(1000);
    expect(await board.locator('[data-figure=lot]').innerText()).toBe('2');
    expect(await board.getByText('19 lots left').count()).toBe(1);
    expect(await board.locator('button, input, select, a').count()).toBe(0);
  });

  const screen = pageOfAll(
    () => house.browser,
    async (page) => void (await page.goto(`${house.server.hallUrl}/board`)),
  );

  it.each([
    [1920, 1080],
    [1366, 768],
    [1280, 720],
  ])('has digits of at least 15 in 100 of the height at %i × %i', async (width, height) => {
    const board = await screen();
    await board.setViewportSize({ width, height });
    for (const figure of ['lot', 'price']) {
      const digits = await board.locator(`[data-figure=${figure}]`).evaluate((element) => {
        const { fontSize, fontFamily, fontWeight } = getComputedStyle(element);
        const drawing = document.createElement('canvas').getContext('2d');
        if (!drawing) throw new Error('no canvas');
        drawing.font = `${fontWeight} ${fontSize} ${fontFamily}`;
        const { actualBoundingBoxAscent, actualBoundingBoxDescent } = drawing.measureText('1');
        return actualBoundingBoxAscent + actualBoundingBoxDescent;
      });
      expect(digits, figure).toBeGreaterThanOrEqual(height * 0.15);
    }
    expect(await board.evaluate(() => document.documentElement.scrollHeight <= window.innerHeight)).toBe(true);
  });

  it('goes grey and says since when, once the server is silent, and wakes up with it', async () => {
    const board = await newPage(house.browser, { expected: [/Failed to load resource/] });
    await board.goto(`${house.server.hallUrl}/board`);
    await board.locator('[data-figure=lot]').waitFor();
    await board.waitForTimeout(2500);
    await house.server.kill();
    const silence = board.locator('.board-silence');
    await silence.waitFor();
    expect(await silence.innerText()).toMatch(/since \d{1,2}:\d\d/);
    expect(await axe(board)).toEqual([]);
    await house.server.restart();
    await silence.waitFor({ state: 'detached' });
  });

  it("follows a seller's number on a phone", async () => {
    const phone = await newPage(house.browser, { viewport: { width: 320, height: 640 } });
    await phone.goto(`${house.server.hallUrl}/board/seller`);
    await phone.getByLabel('Seller number').fill('2');
    await phone.getByLabel('Code', { exact: true }).fill(codeOf(2).toLowerCase());
    await phone.keyboard.press('Enter');
    await phone.getByText('13.25 each').waitFor();
    expect(await phone.getByText(/so far|424\.00/).count()).toBe(0);
  });
});

describe('what a seller brought', () => {
  const text = async (path: string) => {
    const answer = await fetch(`${house.server.url}${path}`);
    expect(answer.status, path).toBe(200);
    return answer.text();
  };
  /** All that the hall can ask for about a sale and a seller number. */
  const asked = (query: string) => [1, 2, 3].flatMap((no) => [`/board/seller?no=${no}&code=${codeOf(no)}${query}`]);
  const moveTo = async (stage: string, reason = '') => {
    const { left } = JSON.parse(await text('/api/views/board')) as { left: number };
    const answer = await fetch(`${house.server.url}/api/commands/sale.stage`, {
      method: 'POST',
      headers: {
        ...{ 'content-type': 'application/json', origin: house.server.url, 'x-station': 'office' },
        'idempotency-key': `move-to-${stage}`,
      },
      body: JSON.stringify({ saleId: 2, stage, reason, left }),
    });
    expect(await answer.json()).toMatchObject({ ok: true });
  };

  // 32 muskrats at 13.25 are 424.00; the earlier sale brought 10 at 17.75 and 10 at 18.25.
  const SUMS = /424\.00|177\.50|182\.50|360\.00/;
  const PRICES = /1[378]\.[27]5/;
  const ELSEWHERE = /A seller(&#x27;|')s results are on their settlement sheet/;

  it('is told without a sum while the sale is being sold, and never of an earlier one', async () => {
    for (const query of ['', '&sale=2']) {
      const pages = await Promise.all(asked(query).map(text));
      expect(pages.join()).toMatch(/13\.25/);
      expect(pages.join()).not.toMatch(SUMS);
    }
    // Nor to whoever counts up, or brings the code of another number.
    for (const code of ['', `&code=${codeOf(1)}`, '&code=AAAA-AAAA']) {
      expect(await text(`/board/seller?no=2${code}`)).not.toMatch(PRICES);
    }
    // Single prices of a sale that is closed are for those who sold and bought; the Board has them no more either.
    for (const path of ['/api/views/board?sale=1', '/board?sale=1']) expect(await text(path)).not.toMatch(PRICES);
    expect(await text('/api/views/board?sale=2')).toMatch(PRICES);
    // With a seller number beside each price, whoever writes along would have the sums by the evening.
    for (const path of ['/api/views/board?sale=2', '/board?sale=2']) {
      expect(await text(path)).not.toMatch(/sellerNo|seller(\s|&nbsp;|\u00a0)*\d/i);
    }
    for (const path of asked('&sale=1')) {
      const page = await text(path);
      expect(page).toMatch(ELSEWHERE);
      expect(page).not.toMatch(PRICES);
      expect(page).not.toMatch(SUMS);
    }
  });

  it('is told to nobody once bidding has ended, whatever is asked for', async () => {
    await moveTo('settling');
    const paths = ['', '&sale=2', '&sale=1', '&sale=2&sale=1', '&stage=selling'].flatMap(asked);
    for (const path of paths) {
      const page = await text(path);
      expect(page, path).toMatch(ELSEWHERE);
      expect(page, path).not.toMatch(PRICES);
    }
    await moveTo('selling', 'The last lot was forgotten');
    expect(await text(`/board/seller?no=2&code=${codeOf(2)}`)).toMatch(PRICES);
  });
});
