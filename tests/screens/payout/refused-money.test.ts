/**
 * What a station answers where money is not taken, paid, voided or written, sentence by sentence as a cashier reads it.
 * The pages show the sentence of the server as it is (the other tests of Till and Payout), so it is asked of the server.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { paidHall } from '#tests/support/sales.ts';
import { tempFile } from '#tests/support/temp.ts';

let server: Server;
beforeAll(async () => {
  const bookFile = tempFile();
  paidHall(bookFile).book.close();
  server = await startServer({ bookFile });
});
afterAll(() => server?.stop());

async function said(station: string, command: string, input: object): Promise<string> {
  const answer = await fetch(`${server.url}/api/commands/${command}`, {
    method: 'POST',
    headers: {
      ...{ 'content-type': 'application/json', 'idempotency-key': crypto.randomUUID(), 'x-station': station },
      origin: server.url,
    },
    body: JSON.stringify(input),
  });
  const body = (await answer.json()) as { code?: string; detail?: string };
  return `${body.code}: ${body.detail}`.replace(/ at \d{1,2}:\d\d [AP]M UTC/, ' at TIME');
}

const PAY = { saleId: 1, method: 'cash', amount: '5.00' } as const;

describe('money that is refused', () => {
  it.each<[string, string, object, string]>([
    [
      'till',
      'payment.record',
      { ...PAY, direction: 'in', buyerNo: 10 },
      'needs_answer: Buyer 10 owes nothing, and you typed $5.00. That is $5.00 too much. $111.83 was taken on Feb 28, 2026 at TIME. Take it anyway?',
    ],
    [
      'till',
      'payment.record',
      { ...PAY, direction: 'in', buyerNo: 99 },
      'unknown: There is no buyer number 99: check the card.',
    ],
    ['till', 'payment.record', { ...PAY, direction: 'out', buyerNo: 10 }, 'already: Buyer 10 has nothing to get back.'],
    [
      'till',
      'payment.record',
      { ...PAY, direction: 'out', sellerNo: 1 },
      'not_allowed: Sellers are paid at Payout: send seller number 1 to the treasurer.',
    ],
    [
      'payout',
      'payment.record',
      { ...PAY, direction: 'out', sellerNo: 1 },
      'already: Ada Birch is already paid: check 501 over $88.75 was written on Feb 28, 2026 at TIME. Nothing is due on seller number 1.',
    ],
    [
      'payout',
      'payment.record',
      { ...PAY, direction: 'out', sellerNo: 1, personId: 4 },
      'not_allowed: Eve Frost does not sell behind number 1: choose one of its partners.',
    ],
    [
      'payout',
      'payment.record',
      { ...PAY, direction: 'out', sellerNo: 77 },
      'unknown: There is no seller number 77: check the card.',
    ],
    [
      'till',
      'payment.record',
      { ...PAY, direction: 'in' },
      'missing: Say whose money it is: one buyer number or one seller number.',
    ],
    [
      'payout',
      'payment.setoff',
      { saleId: 1, sellerNo: 1, buyerNo: 10, personId: 1, amount: '5.00' },
      'not_allowed: Ada Birch does not buy under number 10: check the card.',
    ],
    [
      'payout',
      'payment.writeoff',
      { saleId: 1, buyerNo: 10, amount: '5.00', reason: 'moved away' },
      'already: Buyer 10 owes nothing.',
    ],
    [
      'till',
      'payment.void',
      { paymentId: 999, reason: 'typed twice' },
      'unknown: This payment is not in the book: reload the page.',
    ],
    [
      'till',
      'payment.void',
      { paymentId: 1, reason: 'typed twice' },
      'not_allowed: This payment was somebody’s dues: take the dues back at Intake.',
    ],
    [
      'till',
      'payment.void',
      { paymentId: 4, reason: 'typed twice' },
      'not_allowed: A check to seller number 1 is voided at Payout: ask the treasurer.',
    ],
    [
      'payout',
      'check.bounce',
      { paymentId: 1, reason: 'no funds' },
      'not_allowed: Only a check that was taken in can come back: choose one of those.',
    ],
    [
      'payout',
      'check.write',
      { saleId: 1, sellerNo: 1, firstNumber: 600 },
      'already: Ada Birch is already paid: check 501 over $88.75 was written on Feb 28, 2026 at TIME. Your check 600 is not written.',
    ],
    [
      'payout',
      'check.write',
      { saleId: 1, sellerNo: null, firstNumber: 600, seen: 0 },
      'already: There is nothing to pay: every seller number with a sheet is paid.',
    ],
    [
      'payout',
      'check.reissue',
      { checkId: 1, number: 502, reason: 'lost' },
      'taken: Check 502 is written already: take the number of the new check.',
    ],
    [
      'payout',
      'check.reissue',
      { checkId: 99, number: 600, reason: 'lost' },
      'unknown: This check is not in the book: reload the page.',
    ],
    [
      'payout',
      'charge.waive',
      { chargeId: 999, reason: 'by mistake' },
      'unknown: This charge is not in the book: reload the page.',
    ],
    [
      'payout',
      'check.stop',
      { checkId: 99, kind: 'lost', reason: 'lost' },
      'unknown: This check is not in the book: reload the page.',
    ],
    [
      'payout',
      'settlement.issue',
      { saleId: 1, sellerNo: 1 },
      'already: Seller number 1 already has settlement sheet 1. Print that one again; an issued sheet is never changed.',
    ],
    [
      'payout',
      'settlement.correct',
      { saleId: 1, sellerNo: 1, reason: 'misheard' },
      'already: Sheet 1 of seller number 1 is still right: there is nothing to correct.',
    ],
    [
      'office',
      'sale.stage',
      { saleId: 1, stage: 'closed' },
      'wrong_stage: From “selling” the sale goes to settling or back to intake.',
    ],
  ])('%s, %s %j', async (station, command, input, sentence) => {
    expect(await said(station, command, input)).toBe(sentence);
  });
});
