/** A ticket that is scanned at the Till, and numbers of lots that were divided, in and out of the folder. */
import { describe, expect, it } from 'vitest';
import { buyerOfTicket } from '#db/buyer/queries.ts';
import { formerNumbers } from '#db/lot/former.ts';
import { exportFiles, importFiles, withBook } from '#tests/support/exchange.ts';
import { openHall } from '#tests/support/hall.ts';

function dividedAndSold() {
  const hall = openHall();
  const { must, saleId } = hall;
  for (const count of ['4', '3', '2']) must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count });
  must('lot.divide', { lotId: 1, parts: [{ count: '3' }, { count: '1' }] });
  must('outcome.record', { saleId, lotNo: '1A', kind: 'sold', price: '5.00', buyerNo: 11 });
  must('outcome.record', { saleId, lotNo: '2', kind: 'passed' });
  return hall;
}

describe('a ticket at the Till', () => {
  it.each([
    ['S1LOT1A', { ok: true, value: 11 }],
    ['S1LOT1', { ok: false, message: 'Lot 1 was divided into 1A and 1B. Use one of them.' }],
    ['S1LOT2', { ok: false, message: 'Lot 2 is no-sale: it has no buyer.' }],
    ['S1LOT3', { ok: false, message: 'Lot 3 is not called yet: it has no buyer.' }],
    ['S1LOT9', { ok: false, message: 'There is no lot 9 in this sale: check the number on the ticket.' }],
    ['S7LOT2', { ok: false, message: expect.stringContaining('another sale') }],
  ] as const)('%s leads to %j', (ticket, leads) => {
    const { book, saleId } = dividedAndSold();
    expect(buyerOfTicket(book, saleId, ticket)).toMatchObject(leads);
  });
});

describe('numbers that are no more', () => {
  it('stay so over a folder', () => {
    const { book, saleId } = dividedAndSold();
    const files = exportFiles(book, saleId);
    expect(files['lots.csv']).toContain('1 divided');
    withBook((other) => {
      const moved = importFiles(other, files);
      expect(formerNumbers(other, moved.saleId)).toEqual(['1', '1']);
      expect(exportFiles(other, moved.saleId)['lots.csv']).toBe(files['lots.csv']);
    });
  });
});
