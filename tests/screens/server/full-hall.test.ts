/**
 * A hall full of boards and two clerks. By hand the whole of it, at ten times the pace of a real sale:
 * `HALL_BOARDS=50 HALL_LOTS=80 HALL_PACE_MS=750 npx vitest run --project screens tests/screens/server/full-hall.test.ts`;
 * with `HALL_BOARDS=1 HALL_WIRE=50` the boards are on other machines, as far as this one can tell.
 */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lotUp, openBlock, outcomesIn, untilSaved, untilTyping } from '#tests/screens/support/block.ts';
import { newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { WireBoards } from '#tests/screens/support/failing.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { tempFile } from '#tests/support/temp.ts';

const BOARDS = Number.parseInt(process.env.HALL_BOARDS ?? '3', 10);
/** Boards that are a line only: fifty browsers drawn on the server's own machine cost more than the server does. */
const WIRE = Number.parseInt(process.env.HALL_WIRE ?? '3', 10);
const LOTS = Number.parseInt(process.env.HALL_LOTS ?? '8', 10);
/** Between two lots of the hall. A real one brings a lot every fifteen seconds, and each clerk takes every other lot. */
const PACE_MS = Number.parseInt(process.env.HALL_PACE_MS ?? '100', 10);

const bookFile = tempFile();
let browser: Browser;
let server: Server;

beforeAll(async () => {
  fillSellingBook(bookFile, { lots: LOTS + 1 }).close();
  server = await startServer({ bookFile });
  browser = await theBrowser();
});

afterAll(async () => {
  await server?.stop();
});

type Times = Record<string, number>;

/** Notes on the page when each lot was first seen saved (at the Block) or brought (on the Board). */
async function noteTimes(page: Page): Promise<void> {
  await page.evaluate(() => {
    const times: Times = {};
    Object.assign(window, { seenAt: times });
    const look = () => {
      for (const row of document.querySelectorAll<HTMLElement>('.last-ten li[data-state=saved]')) {
        times[row.dataset.lot ?? ''] ??= Date.now();
      }
      const brought = /^Lot (\w+) brought$/.exec(document.querySelector('#board-brought')?.textContent ?? '')?.[1];
      if (brought) times[brought] ??= Date.now();
    };
    new MutationObserver(look).observe(document.body, {
      subtree: true,
      childList: true,
      attributes: true,
      characterData: true,
    });
  });
}

const timesOn = (page: Page) => page.evaluate(() => (window as unknown as { seenAt: Times }).seenAt);

const p95 = (values: readonly number[]) => [...values].sort((a, b) => a - b)[Math.ceil(values.length * 0.95) - 1] ?? 0;

describe('a full hall', () => {
  it('has every lot saved once, and every board told of the last one', { timeout: 900_000 }, async () => {
    const boards: Page[] = [];
    for (let at = 0; at < BOARDS; at += 1) {
      const board = await newPage(browser);
      await board.goto(`${server.hallUrl}/board`);
      boards.push(board);
    }
    const wire = new WireBoards(server.url, WIRE);
    const clerks = [await newPage(browser), await newPage(browser)];
    for (const clerk of clerks) await openBlock(clerk, server.hallUrl);
    for (const page of [...boards.slice(0, 1), ...clerks]) await noteTimes(page);
    const entered: Times = {};
    for (let lot = 1; lot <= LOTS; lot += 1) {
      const clerk = clerks[lot % 2] ?? boards[0];
      if (!clerk) throw new Error('no clerk');
      await untilTyping(clerk, lot);
      await clerk.keyboard.type('13.25');
      await clerk.keyboard.press('Enter');
      await clerk.keyboard.type('10');
      entered[String(lot)] = Date.now();
      await clerk.keyboard.press('Enter');
      await sleep(PACE_MS);
    }
    for (const clerk of clerks) await untilSaved(clerk);
    for (const board of boards) await board.getByText(`Lot ${LOTS} brought`).waitFor();
    expect(await lotUp(clerks[0] as Page)).toBe(String(LOTS + 1));
    expect(outcomesIn(bookFile).map(({ lotNumber }) => lotNumber)).toEqual(
      Array.from({ length: LOTS }, (_, at) => at + 1),
    );
    const [onBoard = {}, even = {}, odd = {}] = await Promise.all(
      [boards[0], ...clerks].map((page) => timesOn(page as Page)),
    );
    const took = (of: (lot: number) => Times) =>
      Object.entries(entered).flatMap(([lot, at]) => {
        const seen = of(Number.parseInt(lot, 10))[lot];
        return seen === undefined ? [] : [seen - at];
      });
    const saved = took((lot) => (lot % 2 === 0 ? even : odd));
    const told = took(() => onBoard);
    process.stdout.write(
      `${BOARDS} boards drawn, ${WIRE} on the wire, 2 clerks, ${LOTS} lots: saved in the browser p95 ${p95(saved)} ms, on the Board p95 ${p95(told)} ms, at most ${Math.max(...told)} ms\n`,
    );
    expect(saved).toHaveLength(LOTS);
    await wire.close();
  });
});
