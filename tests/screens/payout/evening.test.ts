/**
 * What a server in another part of the world gives out of a book from Hawaii: the day of the hall, on the pages, the
 * papers and the files. The evening is that of December 31, at 11.
 */
import { execFileSync } from 'node:child_process';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readBack } from '#tests/papers/support/pdf.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { EVENINGS, eveningHall } from '#tests/support/sales.ts';
import { tempFile } from '#tests/support/temp.ts';

const [HAWAII] = EVENINGS;
if (!HAWAII) throw new Error('there is no evening');
const bookFile = tempFile();
let server: Server;

beforeAll(async () => {
  eveningHall(HAWAII, bookFile).book.close();
  server = await startServer({ bookFile, env: { TZ: 'Asia/Tokyo' } });
});
afterAll(() => server?.stop());

async function got(path: string): Promise<Response> {
  const answer = await fetch(`${server.url}${path}`);
  expect(answer.status, path).toBe(200);
  return answer;
}
const textOf = async (path: string) => (await got(path)).text();
const paperOf = async (path: string) => readBack(new Uint8Array(await (await got(path)).arrayBuffer())).text;

describe('a book whose hall has another day than its server', () => {
  it('shows the checks and the log by the day of the hall', async () => {
    const register = await textOf('/payout/checks?sale=1');
    expect(register).toContain('December 31, 2026');
    expect(register).toContain('void December 31, 2026');
    expect(register).not.toContain('January');
    const log = await textOf('/office/log');
    expect(log).toMatch(/Dec 31, 2026, 11:00 PM/);
    expect(log).not.toMatch(/2027-01-01(<!-- -->)? /);
  });

  it.each([
    ['the register', '/api/papers/payout/check-register?sale=1', '1050 Ada Birch 1 1 December 31, 2026'],
    ['the stubs', '/api/papers/payout/check-stubs?sale=1', 'Check written December 31, 2026'],
    ['the closing report', '/api/papers/payout/closing-report?sale=1', 'Closed December 31, 2026'],
    ['a correction with its sheet', '/api/papers/sheets?sale=1&seller=1', 'December 31, 2026'],
    ['an invoice', '/api/papers/invoice?sale=1&buyer=10', 'December 31, 2026'],
    ['a receipt', '/api/papers/payment-receipt?payment=1', 'Taken December 31, 2026, 11:00 PM'],
  ])('prints it on %s', async (_, path, words) => {
    const text = await paperOf(path);
    expect(text).toContain(words);
    expect(text).not.toMatch(/\b(2027|1 January)\b/);
  });

  it('writes it into the files', async () => {
    expect(await textOf('/api/files/payout/checks.csv?sale=1')).toContain(',2026-12-31,');
    for (const file of ['checks.csv', 'journal.csv', 'journal.ledger']) {
      const text = await textOf(`/api/files/payout/${file}?sale=1`);
      expect(text, file).toContain('2026-12-31');
      expect(text, file).not.toContain('2027');
    }
  });

  it('finds the entries of a day by the day of the hall', async () => {
    expect(await textOf('/api/office/log?from=2026-12-31&to=2026-12-31')).toContain('check.write');
    expect(await textOf('/api/office/log?from=2027-01-01')).not.toContain('check.write');
  });
});

describe('a paper that is drawn today', () => {
  // Of these two zones one at least is on another day than UTC, at any time of day.
  const zone = new Date().getUTCHours() < 11 ? 'Pacific/Pago_Pago' : 'Pacific/Kiritimati';
  // GNU coreutils and the tz database of the system; asked before and after, should it be midnight there.
  const today = () =>
    execFileSync('date', ['+%B %-d, %Y'], { env: { ...process.env, TZ: zone }, encoding: 'utf8' }).trim();

  it('bears the day that it is in the hall', async () => {
    const answer = await fetch(`${server.url}/api/commands/association.set`, {
      method: 'POST',
      headers: {
        ...{ 'content-type': 'application/json', 'idempotency-key': 'the-hall-moves', 'x-station': 'office' },
        origin: server.url,
      },
      body: JSON.stringify({ name: 'Lantern Ridge Fur Harvesters', timeZone: zone }),
    });
    expect(answer.status).toBe(200);
    for (const [path, words] of [
      ['/api/papers/sale-list?sale=1', 'As of'],
      ['/api/papers/results?sale=1', 'As of'],
      ['/api/papers/tag-list?sale=1', 'As of'],
      ['/api/papers/payout/agency-return?sale=1', 'As of'],
      ['/api/papers/purchase-record?sale=1&buyer=10', 'Drawn'],
    ] as const) {
      const before = today();
      const text = await paperOf(path);
      const days = [before, today()].map((day) => `${words} ${day}`);
      expect(
        days.some((day) => text.includes(day)),
        `${path}: ${days[0]}`,
      ).toBe(true);
    }
  });
});
