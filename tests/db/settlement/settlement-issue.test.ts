import { describe, expect, it } from 'vitest';
import { logHead } from '#db/book/log.ts';
import { openHall, rowsOf } from '#tests/support/hall.ts';

describe('settlement.issue', () => {
  const { book, saleId, must, refuses } = openHall();
  for (const no of [2, 3]) must('seller.register', { saleId, sellerNo: no, partners: [{ personId: no }] });
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

  it('for everybody wants how many were seen, and skips a number with lots that were not called', () => {
    must('sale.stage', { saleId, stage: 'settling', reason: '', left: 1 });
    const all = { saleId, sellerNo: null };
    refuses('settlement.issue', all, { code: 'needs_answer', field: 'seen' });
    const told = refuses('settlement.issue', { ...all, seen: 2 }, { code: 'conflict', field: 'seen' });
    expect(told).toContain('It is now 1 sheet, not 2.');
    const { issued, skipped } = must('settlement.issue', { ...all, seen: 1 }, 'payout');
    expect(issued).toMatchObject([{ number: 2, sellerNo: 3 }]);
    expect(skipped).toEqual([2]);
    refuses('settlement.issue', { ...all, seen: 1 }, { code: 'wrong_stage', field: 'sellerNo' });
  });

  it('for one who has a lot that was not called asks first', () => {
    const one = { saleId, sellerNo: 2 };
    const told = refuses('settlement.issue', one, { code: 'needs_answer', field: 'lots_not_called' });
    expect(told).toBe('1 lot of seller number 2 has not been called: 3. Issue the sheet anyway?');
    must('settlement.issue', { ...one, answered: ['lots_not_called'] }, 'payout');
    expect(sheets().map(({ number }) => number)).toEqual([1, 2, 3]);
    refuses('settlement.issue', { saleId, sellerNo: null }, { code: 'already', field: 'sellerNo' });
  });

  it('refuses a closed sale', () => {
    openHall({ stage: 'closed' }).refuses('settlement.issue', { saleId, sellerNo: 1 }, { code: 'wrong_stage' });
  });
});
