import { describe, expect, it } from 'vitest';
import { openHall, rowsOf } from '#tests/support/hall.ts';

const off = { saleId: 1, buyerNo: 10, cleared: false };

describe('buyer.clear', () => {
  const { book, must, give, refusesUntyped } = openHall();
  const row = () => rowsOf(book).buyer?.[0];

  it('takes the clearance back and gives it again, in the name of whoever gave it', () => {
    expect(row()).toMatchObject({ cleared: 1, cleared_by: 'Ada' });
    must('buyer.clear', off, 'till');
    expect(row()).toMatchObject({ cleared: 0, cleared_by: '' });
    expect(give('buyer.clear', { ...off, cleared: true }, { worker: 'Bo', station: 'till' })).toMatchObject({
      ok: true,
    });
    expect(row()).toMatchObject({ cleared: 1, cleared_by: 'Bo' });
  });

  it.each([
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ buyerNo: 9 }, 'unknown', 'buyerNo'],
    [{ cleared: true }, 'already', 'cleared'],
    [{ cleared: 'no' }, 'malformed', 'cleared'],
  ] as const)('refuses %j', (over, code, field) => {
    refusesUntyped('buyer.clear', { ...off, ...over }, { code, field });
  });

  it('refuses a closed sale', () => {
    openHall({ stage: 'closed' }).refuses('buyer.clear', off, { code: 'wrong_stage', field: 'saleId' });
  });
});
