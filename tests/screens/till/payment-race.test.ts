import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { tempFile } from '#tests/support/temp.ts';

/** Five hundred once: `RACE_ROUNDS=500 npx vitest run --project screens tests/screens/till/payment-race.test.ts`. */
const ROUNDS = Number.parseInt(process.env.RACE_ROUNDS ?? '20', 10);
const FIRST_SELLER = 4;
const FIRST_BUYER = 30;
const bookFile = tempFile();
let server: Server;

/** So many members with a lot each, sold to as many buyers: 10 × 10.00 less 6.00, 0.25 and 5.00 is 88.75. */
beforeAll(async () => {
  const { must, close } = fillSellingBook(bookFile, { lots: 0 });
  for (let round = 0; round < ROUNDS; round += 1) {
    const person = (name: string) => must('person.enrol', { name, memberUntil: '2026-12-31' }).personId;
    const [sellerNo, buyerNo] = [FIRST_SELLER + round, FIRST_BUYER + round];
    must('seller.register', { saleId: 1, sellerNo, partners: [{ personId: person(`Seller ${sellerNo}`) }] });
    must('buyer.register', { saleId: 1, buyerNo, personId: person(`Buyer ${buyerNo}`), cleared: true });
    must('lot.add', { saleId: 1, sellerNo, goods: 'muskrat', count: '10' });
    must('outcome.record', { saleId: 1, lotNo: String(round + 1), kind: 'sold', price: '10.00', buyerNo });
  }
  must('sale.stage', { saleId: 1, stage: 'settling', reason: '' });
  for (let round = 0; round < ROUNDS; round += 1)
    must('settlement.issue', { saleId: 1, sellerNo: FIRST_SELLER + round });
  close();
  server = await startServer({ bookFile });
});

afterAll(() => server?.stop());

type Said = 'done' | { readonly code: string; readonly detail: string };

async function pay(worker: string, station: string, input: object): Promise<Said> {
  const answer = await fetch(`${server.url}/api/commands/payment.record`, {
    method: 'POST',
    headers: {
      ...{ 'content-type': 'application/json', 'idempotency-key': randomUUID(), origin: server.url },
      ...{ 'x-station': station, 'x-worker': worker },
    },
    body: JSON.stringify({ saleId: 1, method: 'cash', ...input }),
  });
  return answer.ok ? 'done' : ((await answer.json()) as Exclude<Said, 'done'>);
}

/** Both press at once; gives what the one is told whose press was not the first. */
async function loserOf(station: string, input: object): Promise<Exclude<Said, 'done'>> {
  const said = await Promise.all(['Ada', 'Bo'].map((worker) => pay(worker, station, input)));
  const [lost, ...others] = said.filter((one) => one !== 'done');
  expect(others).toEqual([]);
  if (!lost) throw new Error('both were recorded');
  return lost;
}

function sumsBy(column: 'seller_id' | 'buyer_id'): unknown[] {
  const book = openBook(bookFile);
  const sums = book.sqlite
    .prepare(`SELECT sum(amount_cents) FROM payment WHERE ${column} IS NOT NULL GROUP BY ${column}`)
    .pluck()
    .all();
  book.close();
  return sums;
}

describe('two workers at once, over HTTP', () => {
  it('pay a seller once, and the other is told that it is paid', async () => {
    for (let round = 0; round < ROUNDS; round += 1) {
      const sellerNo = FIRST_SELLER + round;
      const lost = await loserOf('payout', { direction: 'out', sellerNo, amount: '88.75' });
      expect(lost).toMatchObject({ code: 'already' });
      expect(lost.detail).toMatch(
        new RegExp(`^Seller ${sellerNo} is already paid: \\$88\\.75 was paid at \\d{1,2}:\\d\\d [AP]M UTC\\.`),
      );
    }
    expect(sumsBy('seller_id')).toEqual(Array.from({ length: ROUNDS }, () => 8875));
  });

  it('take one invoice once, and the other is asked before a second time', async () => {
    for (let round = 0; round < ROUNDS; round += 1) {
      const buyerNo = FIRST_BUYER + round;
      const lost = await loserOf('till', { direction: 'in', buyerNo, amount: '100.00' });
      expect(lost).toMatchObject({ code: 'needs_answer' });
      expect(lost.detail).toMatch(
        new RegExp(`^Buyer ${buyerNo} owes nothing, .*\\$100\\.00 was taken at .*\\. Take it anyway\\?$`),
      );
    }
    expect(sumsBy('buyer_id')).toEqual(Array.from({ length: ROUNDS }, () => 10_000));
    const yes = { direction: 'in', buyerNo: FIRST_BUYER, amount: '100.00', answered: ['more_than_owed'] };
    expect(await pay('Ada', 'till', yes)).toBe('done');
  });
});
