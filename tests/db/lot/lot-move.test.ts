import { describe, expect, it } from 'vitest';
import { GOODS, hallOf, openHall, rowsOf, SALE } from '#tests/support/hall.ts';

describe('lot.move', () => {
  const hall = openHall();
  const { saleId, must, refuses, book } = hall;
  const { lotId } = must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
  const { personId } = must('person.enrol', { name: 'Dot Ebner', memberUntil: '2026-12-31' });
  const { sellerId } = must('seller.register', { saleId, sellerNo: 2, partners: [{ personId }] });

  it.each([
    [{ lotId, sellerNo: 7 }, 'unknown', 'sellerNo'],
    [{ lotId, sellerNo: 1 }, 'already', 'sellerNo'],
    [{ lotId: 99, sellerNo: 2 }, 'unknown', 'lotId'],
  ] as const)('refuses %j', (input, code, field) => {
    refuses('lot.move', input, { code, field });
  });

  it('puts the lot under the other number and leaves everything else', () => {
    const before = rowsOf(book).lot?.[0] as Record<string, unknown>;
    must('lot.move', { lotId, sellerNo: 2 });
    const after = rowsOf(book).lot?.[0] as Record<string, unknown>;
    expect(after).toEqual({ ...before, seller_id: sellerId, line: after.line });
  });

  it('refuses a lot that was called', () => {
    must('outcome.record', { saleId, lotNo: '1', kind: 'passed' });
    refuses('lot.move', { lotId, sellerNo: 1 }, { code: 'already', field: 'lotNo' });
  });
});

describe('lot.move and the season limit', () => {
  it('refuses a lot with which the other licence would have brought too many', () => {
    const hall = openHall();
    const goods = GOODS.map((one) => (one.goods === 'bobcat' ? { ...one, seasonLimit: 20 } : one));
    const sale = { ...SALE, name: 'With a limit', held_on: '2026-03-07' };
    const saleId = hall.must('sale.plan', { sale, goods }).saleId;
    const { must, refuses } = hallOf(hall.book, saleId);
    must('sale.stage', { saleId, stage: 'intake', reason: '' });
    for (const [sellerNo, name] of [
      [1, 'Dot Ebner'],
      [2, 'Eli Frost'],
    ] as const) {
      const { personId } = must('person.enrol', { name, memberUntil: '2026-12-31', licenceNo: `T-${sellerNo}` });
      must('seller.register', { saleId, sellerNo, partners: [{ personId }] });
    }
    const { lotId } = must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '20' });
    must('lot.add', { saleId, sellerNo: 2, goods: 'bobcat', count: '1' });
    refuses('lot.move', { lotId, sellerNo: 2 }, { code: 'not_allowed', field: 'sellerNo' });
  });
});
