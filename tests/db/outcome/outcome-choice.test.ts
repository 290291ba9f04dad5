import { beforeEach, describe, expect, it } from 'vitest';
import { type Hall, openHall, rowsOf } from '#tests/support/hall.ts';

let hall: Hall;
const outcomes = () => rowsOf(hall.book).outcome as { lot_id: number; price_cents: number; buyer_id: number }[];
const choice = (lots: string, more: object = {}) => ({
  ...{ saleId: hall.saleId, lots, price: '7.25', buyerNo: 10 },
  ...more,
});

beforeEach(() => {
  hall = openHall();
  for (const minimum of ['', '', '8.00', ''])
    hall.must('lot.add', { saleId: hall.saleId, sellerNo: 1, goods: 'raccoon', count: '3', minimum });
});

describe('outcome.choice', () => {
  it('records every lot at the price, in one line of the log', () => {
    const before = rowsOf(hall.book).log?.length ?? 0;
    const { outcomes: taken } = hall.must('outcome.choice', choice('4+1'), 'block');
    expect(taken).toMatchObject([{ lotId: 4 }, { lotId: 1 }]);
    expect(outcomes()).toMatchObject([
      { lot_id: 4, price_cents: 725, buyer_id: 1 },
      { lot_id: 1, price_cents: 725, buyer_id: 1 },
    ]);
    expect(rowsOf(hall.book).log).toHaveLength(before + 1);
  });

  it('records none where one of them cannot be sold', () => {
    hall.must('outcome.record', { saleId: hall.saleId, lotNo: '2', kind: 'passed' });
    expect(hall.refuses('outcome.choice', choice('1+2'), { code: 'already', field: 'lots' })).toContain('Lot 2 is');
    expect(hall.refuses('outcome.choice', choice('1+9'), { code: 'unknown', field: 'lots' })).toContain('lot 9');
    hall.refuses('outcome.choice', choice('1+4', { buyerNo: 99 }), { code: 'unknown', field: 'buyerNo' });
  });

  it('asks about the lot that is unusual, and keeps the answer with it alone', () => {
    const message = hall.refuses('outcome.choice', choice('1+3'), { code: 'needs_answer', field: 'below_minimum' });
    expect(message).toMatch(/^Lot 3\. /);
    hall.must('outcome.choice', choice('1+3', { answered: ['below_minimum'] }), 'block');
    expect(rowsOf(hall.book).outcome).toMatchObject([{ remarks: '[]' }, { remarks: '["below_minimum"]' }]);
  });
});

describe('an outcome entered from paper', () => {
  it('has the time on the paper, and its log line the time of the entry', () => {
    const hammerAt = '2026-02-28T09:12:00.000Z';
    hall.must('outcome.record', { saleId: hall.saleId, lotNo: '1', kind: 'passed', hammerAt });
    hall.must('outcome.choice', choice('2+4', { hammerAt }), 'block');
    expect(outcomes()).toMatchObject([{ at: hammerAt }, { at: hammerAt }, { at: hammerAt }]);
    expect(rowsOf(hall.book).log?.at(-1)).toMatchObject({ at: '2026-02-28T10:00:00Z' });
  });

  it('is refused where that time has not come', () => {
    const later = { saleId: hall.saleId, lotNo: '1', kind: 'passed', hammerAt: '2026-02-28T10:02:00Z' } as const;
    hall.refuses('outcome.record', later, { code: 'malformed', field: 'hammerAt' });
    hall.refuses('outcome.record', { ...later, hammerAt: '9:12' }, { code: 'malformed', field: 'hammerAt' });
  });
});

describe('a correction of an entry that the book has not answered yet', () => {
  const record = () => ({ saleId: hall.saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 }) as const;
  const right = { replacesKey: 'first', reason: 'misheard', kind: 'sold', price: '9.25', buyerNo: 11 } as const;

  it('names it by its key, and stands in its place', () => {
    const lotId = hall.must('outcome.record', { ...record(), lotNo: '2' }).lotId - 1;
    expect(hall.give('outcome.record', record(), { key: 'first', station: 'block' }).ok).toBe(true);
    const again = hall.must('outcome.correct', { lotId, ...right }, 'block');
    expect(outcomes().at(-1)).toMatchObject({ lot_id: lotId, price_cents: 925, replaces_id: 2 });
    const reopen = { lotId, replacesId: again.outcomeId, reason: 'a bid while the hammer fell' };
    hall.must('outcome.reopen', reopen, 'block');
  });

  it('can name one lot of a choice', () => {
    hall.give('outcome.choice', choice('1+2'), { key: 'first', station: 'block' });
    hall.must('outcome.correct', { lotId: 2, ...right }, 'block');
    expect(outcomes().at(-1)).toMatchObject({ lot_id: 2, price_cents: 925, replaces_id: 2 });
  });

  it('is refused where that entry was, or was about another lot, or where neither is named', () => {
    hall.must('outcome.record', record());
    hall.refuses('outcome.correct', { lotId: 1, ...right, replacesKey: 'never' }, { code: 'conflict' });
    const { replacesKey: _none, ...unnamed } = right;
    hall.refuses('outcome.correct', { lotId: 1, ...unnamed }, { code: 'conflict' });
  });
});

describe('a number that was divided', () => {
  it('is not given to another lot', () => {
    const { must, refuses, saleId } = hall;
    must('lot.divide', { lotId: 2, parts: [{ count: '2' }, { count: '1' }] }, 'block');
    must('sale.stage', { saleId, stage: 'intake', reason: 'one more lot' });
    const lot = { saleId, sellerNo: 1, goods: 'raccoon', count: '3', lotNo: '2' };
    expect(refuses('lot.add', lot, { code: 'taken', field: 'lotNo' })).toContain('was divided');
  });
});
