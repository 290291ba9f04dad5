import { describe, expect, it } from 'vitest';
import { logHead } from '#db/log.ts';
import { openHall, rowsOf } from '#tests/support/hall.ts';

describe('settlement.issue', () => {
  const { book, saleId, must, refuses } = openHall();
  must('seller.register', { saleId, sellerNo: 2, partners: [{ personId: 2 }] });
  for (const sellerNo of [1, 2, 2]) must('lot.add', { saleId, sellerNo, goods: 'raccoon', count: '3' });
  for (const lotNo of ['1', '2']) must('outcome.record', { saleId, lotNo, kind: 'sold', price: '7.25', buyerNo: 11 });
  const sheets = () => rowsOf(book).settlement as { number: number; seller_id: number; model: string }[];

  it('freezes a sheet with the next number and the head of the log before it', () => {
    const { hash } = logHead(book);
    must('settlement.issue', { saleId, sellerNo: 1 }, 'payout');
    expect(sheets()).toMatchObject([{ number: 1, seller_id: 1 }]);
    expect(sheets()[0]?.model).toContain(hash);
  });

  it.each([
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ sellerNo: 9 }, 'unknown', 'sellerNo'],
    [{ sellerNo: 1 }, 'already', 'sellerNo'],
    [{ sellerNo: 2 }, 'wrong_stage', 'sellerNo'],
    [{ sellerNo: null }, 'wrong_stage', 'sellerNo'],
    [{ issuedOn: 'today' }, 'malformed', 'issuedOn'],
  ] as const)('refuses %j', (over, code, field) => {
    refuses('settlement.issue', { saleId, sellerNo: 2, ...over }, { code, field });
  });

  it('gives every number that has none its sheet once the sale settles', () => {
    must('sale.stage', { saleId, stage: 'settling', reason: '' });
    must('settlement.issue', { saleId, sellerNo: null }, 'payout');
    expect(sheets().map(({ number }) => number)).toEqual([1, 2]);
    refuses('settlement.issue', { saleId, sellerNo: null }, { code: 'already', field: 'sellerNo' });
  });

  it('refuses a closed sale', () => {
    openHall({ stage: 'closed' }).refuses('settlement.issue', { saleId, sellerNo: 1 }, { code: 'wrong_stage' });
  });
});
