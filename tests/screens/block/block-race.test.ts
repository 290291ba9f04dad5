import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { outcomesIn } from '#tests/screens/support/block.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { tempFile } from '#tests/support/temp.ts';

const LOTS = 300;
const CLERKS = 8;
const bookFile = tempFile();
let server: Server;

beforeAll(async () => {
  fillSellingBook(bookFile, { lots: LOTS }).close();
  server = await startServer({ bookFile });
});

afterAll(async () => {
  await server?.stop();
});

/** Gives every lot to the door over HTTP, one after the other, and says what it was told of each. */
async function clerk(name: string, price: string): Promise<string[]> {
  const told: string[] = [];
  for (let lot = 1; lot <= LOTS; lot += 1) {
    const answer = await fetch(`${server.url}/api/commands/outcome.record`, {
      method: 'POST',
      headers: {
        'content-type': 'application/json',
        'idempotency-key': randomUUID(),
        'x-station': 'block',
        'x-worker': name,
        origin: server.url,
      },
      body: JSON.stringify({ saleId: 1, lotNo: String(lot), kind: 'sold', price, buyerNo: 10 }),
    });
    told.push(answer.ok ? 'won' : ((await answer.json()) as { detail: string }).detail);
  }
  return told;
}

describe('eight clerks after the same three hundred lots, over HTTP', () => {
  it('have three hundred winners, and each of the others is told what, who and when', {
    timeout: 300_000,
  }, async () => {
    const clerks = Array.from({ length: CLERKS }, (_, at) => ({ name: `Clerk${at + 1}`, price: `${at + 9}.25` }));
    const told = await Promise.all(clerks.map(({ name, price }) => clerk(name, price)));
    const rows = outcomesIn(bookFile);
    expect(new Set(rows.map(({ lotNumber }) => lotNumber)).size).toBe(LOTS);
    expect(rows).toHaveLength(LOTS);
    for (const { lotNumber, priceCents } of rows) {
      const winner = clerks.findIndex(({ price }) => price === `${Math.floor((priceCents ?? 0) / 100)}.25`);
      for (const [at, answers] of told.entries()) {
        const answer = answers[lotNumber - 1];
        if (at === winner) expect(answer).toBe('won');
        else
          expect(answer).toMatch(
            new RegExp(
              `^Lot ${lotNumber} is already sold to buyer 10 at ${winner + 9}\\.25\\. Taken down by Clerk${winner + 1} at \\d{1,2}:\\d\\d [AP]M UTC\\.`,
            ),
          );
      }
    }
  });
});
