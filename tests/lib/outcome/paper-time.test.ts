import { describe, expect, it } from 'vitest';
import { decidePaperTime } from '#lib/outcome/paper-time.ts';
import { openHall } from '#tests/support/hall.ts';

const context = { now: '2026-02-28T10:18:00Z', since: '2026-02-28T00:00:00Z', timeZone: 'UTC' };

describe('a time typed from paper', () => {
  it('is taken from the day of the sale on', () => {
    expect(decidePaperTime(context, '2026-02-28T00:00:00Z')).toEqual({ ok: true, value: null });
    expect(decidePaperTime(context, '2026-02-28T10:05:00Z')).toEqual({ ok: true, value: null });
  });

  it('is asked about with both readings where it would be before the sale', () => {
    expect(decidePaperTime(context, '2026-02-27T23:59:00Z')).toEqual({
      ok: false,
      code: 'malformed',
      field: 'hammerAt',
      message:
        '11:59 PM UTC today is still to come: it is 10:18 AM UTC. Feb 27, 2026, 11:59 PM UTC was before the sale began. Which time stands on the paper?',
    });
  });

  it('files no lot under the day before the sale', () => {
    const { must, refuses, saleId } = openHall();
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
    const passed = { saleId, lotNo: '1', kind: 'passed' } as const;
    const yesterday = { ...passed, hammerAt: '2026-02-27T23:59:00Z' };
    refuses('outcome.record', yesterday, { code: 'malformed', field: 'hammerAt' });
    must('outcome.record', { ...passed, hammerAt: '2026-02-28T09:59:00Z' });
  });
});
