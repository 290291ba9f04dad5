import { describe, expect, it } from 'vitest';
import { openHall, rowsOf } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

describe('outcome.reopen', () => {
  const hall = openHall();
  const { book, saleId, must, refuses } = hall;
  for (const count of ['3', '4']) must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count });
  const sell = { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 } as const;
  const { lotId, outcomeId } = must('outcome.record', sell);
  const reopen = { lotId, replacesId: outcomeId, reason: 'a bid as the hammer fell' };

  it.each([
    [{ reason: ' ' }, 'malformed', 'reason'],
    [{ lotId: 99 }, 'unknown', 'lotId'],
    [{ lotId: 2 }, 'unknown', 'lotNo'],
    [{ replacesId: 99 }, 'conflict', 'lotId'],
  ] as const)('refuses %j', (over, code, field) => {
    refuses('outcome.reopen', { ...reopen, ...over }, { code, field });
  });

  it('has the lot wait to be called once more, and keeps what was', () => {
    must('outcome.reopen', reopen);
    refuses('outcome.reopen', reopen, { code: 'unknown', field: 'lotNo' });
    const again = must('outcome.record', { ...sell, price: '8.00', buyerNo: 11 });
    const kinds = rowsOf(book).outcome as { kind: string; replaces_id: number | null; reason: string }[];
    expect(kinds.map(({ kind }) => kind)).toEqual(['sold', 'reopened', 'sold']);
    expect(kinds.map(({ replaces_id }) => replaces_id)).toEqual([null, 1, 2]);
    expect(kinds[1]).toMatchObject({ reason: reopen.reason, price_cents: null });
    expect(again.outcomeId).toBe(3);
  });

  it.each(['settling', 'closed'] as const)('is refused once the sale is %s', (stage) => {
    if (stage === 'closed') closeSale(hall, saleId);
    else must('sale.stage', { saleId, stage, reason: '', left: 1 });
    refuses('outcome.reopen', { ...reopen, replacesId: 3 }, { code: 'wrong_stage', field: 'lotNo' });
  });
});
