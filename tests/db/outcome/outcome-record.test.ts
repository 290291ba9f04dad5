import { describe, expect, it } from 'vitest';
import { bobcatTag, openHall, rowsOf } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

describe('outcome.record', () => {
  const hall = openHall();
  const { book, saleId, must, refuses, refusesUntyped } = hall;
  for (const minimum of ['5.00', '', '', '', ''])
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3', minimum });
  must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '2', tags: [bobcatTag(1)] });
  must('buyer.register', { saleId, buyerNo: 20, personId: 2, cleared: false });
  const sold = { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 } as const;
  must('outcome.record', { ...sold, lotNo: '5' });
  const newest = () => rowsOf(book).outcome?.at(-1);

  it.each([
    [{ lotNo: '5' }, 'already', 'lotNo'],
    [{ lotNo: '9' }, 'unknown', 'lotNo'],
    [{ lotNo: '' }, 'malformed', 'lotNo'],
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ buyerNo: 9 }, 'unknown', 'buyerNo'],
    [{ buyerNo: null }, 'missing', 'buyerNo'],
    [{ price: null }, 'missing', 'price'],
    [{ kind: 'passed' }, 'malformed', 'price'],
    [{ kind: 'passed', price: null }, 'malformed', 'buyerNo'],
    [{ kind: 'lost' }, 'malformed', 'kind'],
    [{ lotNo: '6' }, 'on_hold', 'lotNo'],
    [{ lotNo: '6', kind: 'passed', price: null, buyerNo: null }, 'on_hold', 'lotNo'],
    [{ price: '4.75' }, 'needs_answer', 'below_minimum'],
    [{ buyerNo: 12 }, 'needs_answer', 'seller_buys'],
    [{ buyerNo: 20 }, 'needs_answer', 'buyer_not_cleared'],
    [{ price: '7.30' }, 'needs_answer', 'off_step'],
  ] as const)('refuses %j', (over, code, field) => {
    refusesUntyped('outcome.record', { ...sold, ...over }, { code, field });
  });

  it.each(['12,5', '1e3', 'NaN', '-1', '0.005', '0', '0.00', '', '1,25', '$', '7..', '٣', '99999999'])(
    'refuses the price %j',
    (price) => {
      refuses('outcome.record', { ...sold, price }, { code: 'malformed', field: 'price' });
    },
  );

  it('sells a lot for what the hammer said', () => {
    must('outcome.record', sold);
    expect(newest()).toMatchObject({ kind: 'sold', price_cents: 725, buyer_id: 1, replaces_id: null, awarded: 0 });
  });

  it('keeps what the clerk answered, and only what was asked', () => {
    const answered = ['seller_buys', 'below_minimum', 'off_step'] as const;
    must('outcome.record', { ...sold, lotNo: '2', buyerNo: 12, price: '7.30', answered });
    expect(newest()).toMatchObject({ remarks: '["seller_buys","off_step"]' });
  });

  it('passes a lot, and withdraws one, also one that is on hold', () => {
    must('outcome.record', { saleId, lotNo: '3', kind: 'passed' });
    must('outcome.record', { saleId, lotNo: '6', kind: 'withdrawn' });
    expect(newest()).toMatchObject({ kind: 'withdrawn', price_cents: null, buyer_id: null });
  });

  it.each(['settling', 'closed'] as const)('refuses a sale in the stage %s', (stage) => {
    if (stage === 'closed') closeSale(hall, saleId);
    else must('sale.stage', { saleId, stage, reason: '', left: 1 });
    refuses('outcome.record', { ...sold, lotNo: '4' }, { code: 'wrong_stage' });
  });
});
