import { describe, expect, it } from 'vitest';
import { GOODS, openHall, rowsOf, SALE } from '#tests/support/hall.ts';

interface Row {
  readonly sale_id: number;
  readonly buyer_no: number;
  readonly cleared: number;
  readonly limit_cents: number | null;
  readonly licence_no: string;
}

/** Buyers 10, 11 and 12 of one year, and the sale of the next. */
function nextYear() {
  const hall = openHall();
  hall.must('buyer.amend', { saleId: 1, buyerNo: 10, licenceNo: 'FB-1', taxExempt: false, limit: '250.00' });
  const sale = { ...SALE, name: 'Next Winter Sale', held_on: '2027-02-27' };
  const saleId = hall.must('sale.plan', { sale, goods: GOODS }).saleId;
  const here = () => (rowsOf(hall.book).buyer as Row[]).filter((row) => row.sale_id === saleId);
  return { ...hall, saleId, here };
}

describe('buyers.carry', () => {
  it('gives last year’s buyers their numbers again with what they showed, not cleared', () => {
    const { saleId, must, here } = nextYear();
    expect(must('buyers.carry', { saleId, seen: 3 })).toEqual({ registered: [10, 11, 12], numberTaken: [] });
    expect(here().map((row) => [row.buyer_no, row.cleared, row.limit_cents, row.licence_no])).toEqual([
      [10, 0, 25_000, 'FB-1'],
      [11, 0, null, ''],
      [12, 0, null, ''],
    ]);
  });

  it('passes over whoever has a number already, and names numbers that somebody else has', () => {
    const { saleId, must, refuses, here } = nextYear();
    must('buyer.register', { saleId, buyerNo: 4, personId: 2 });
    const other = must('person.enrol', { name: 'Dee Elm' });
    must('buyer.register', { saleId, buyerNo: 11, personId: other.personId });
    expect(must('buyers.carry', { saleId, fromSaleId: 1, seen: 1 })).toEqual({ registered: [12], numberTaken: [11] });
    expect(here().map(({ buyer_no: no }) => no)).toEqual([4, 11, 12]);
    refuses('buyers.carry', { saleId }, { code: 'already', field: 'saleId' });
  });

  it.each([
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ saleId: 1 }, 'unknown', 'saleId'],
    [{ fromSaleId: 9 }, 'unknown', 'fromSaleId'],
    [{ fromSaleId: 2 }, 'unknown', 'fromSaleId'],
    [{}, 'needs_answer', 'seen'],
    [{ seen: 2 }, 'conflict', 'seen'],
  ] as const)('refuses %j', (over, code, field) => {
    const { saleId, refuses } = nextYear();
    refuses('buyers.carry', { saleId, ...over }, { code, field });
  });
});

describe('buyer.amend', () => {
  it('sets licence, exemption and limit, and leaves the clearance', () => {
    const { must, book } = openHall();
    must('buyer.amend', { saleId: 1, buyerNo: 10, licenceNo: 'FB-2', taxExempt: true, exemptNo: 'TX', limit: '' });
    expect((rowsOf(book).buyer as Row[])[0]).toMatchObject({
      ...{ licence_no: 'FB-2', tax_exempt: 1, exempt_no: 'TX', limit_cents: null, cleared: 1, cleared_by: 'Ada' },
    });
  });

  it.each([
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ buyerNo: 99 }, 'unknown', 'buyerNo'],
    [{ taxExempt: true }, 'missing', 'exemptNo'],
    [{ limit: 'much' }, 'malformed', 'limit'],
  ] as const)('refuses %j', (over, code, field) => {
    openHall().refuses('buyer.amend', { saleId: 1, buyerNo: 10, taxExempt: false, ...over }, { code, field });
  });

  it('refuses a closed sale, as carrying buyers does', () => {
    const { refuses } = openHall({ stage: 'closed' });
    refuses('buyer.amend', { saleId: 1, buyerNo: 10, taxExempt: false }, { code: 'wrong_stage', field: 'saleId' });
    refuses('buyers.carry', { saleId: 1 }, { code: 'wrong_stage', field: 'saleId' });
    refuses('sale.handover', { saleId: 1, unpaid: true }, { code: 'wrong_stage', field: 'saleId' });
  });
});
