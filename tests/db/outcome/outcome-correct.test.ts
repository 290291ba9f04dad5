import { describe, expect, it } from 'vitest';
import { openHall, rowsOf } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

describe('outcome.correct', () => {
  const hall = openHall();
  const { book, saleId, must, refuses } = hall;
  for (const count of ['3', '4']) must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count });
  const first = must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
  const { lotId } = first;
  const right = {
    lotId,
    replacesId: first.outcomeId,
    reason: 'misheard',
    kind: 'sold',
    price: '17.25',
    buyerNo: 11,
  } as const;

  it.each([
    [{ reason: '' }, 'malformed', 'reason'],
    [{ reason: '  ' }, 'malformed', 'reason'],
    [{ lotId: 99 }, 'unknown', 'lotId'],
    [{ lotId: 2 }, 'unknown', 'lotNo'],
    [{ replacesId: 99 }, 'conflict', 'lotId'],
    [{ price: null }, 'missing', 'price'],
    [{ buyerNo: 12 }, 'needs_answer', 'seller_buys'],
  ] as const)('refuses %j', (over, code, field) => {
    refuses('outcome.correct', { ...right, ...over }, { code, field });
  });

  it('puts a further outcome in the place of the one that stands, and keeps both', () => {
    const before = rowsOf(book).outcome;
    const outcomeId = must('outcome.correct', right).outcomeId;
    const rows = rowsOf(book).outcome ?? [];
    expect(rows.slice(0, -1)).toEqual(before);
    const row = { id: outcomeId, replaces_id: first.outcomeId, reason: 'misheard', price_cents: 1725, buyer_id: 2 };
    expect(rows.at(-1)).toMatchObject(row);
  });

  it('refuses a second correction of what was already corrected', () => {
    refuses('outcome.correct', { ...right, price: '8.25' }, { code: 'conflict', field: 'lotId' });
  });

  it('turns a sold lot into a passed one, and may so while the sale settles', () => {
    must('sale.stage', { saleId, stage: 'settling', reason: '', left: 1 });
    const standing = rowsOf(book).outcome?.at(-1) as { id: number };
    must('outcome.correct', { lotId, replacesId: standing.id, reason: 'the bid was not meant', kind: 'passed' });
    expect(rowsOf(book).outcome?.at(-1)).toMatchObject({ kind: 'passed', price_cents: null, buyer_id: null });
  });

  it('refuses a closed sale', () => {
    closeSale(hall, saleId);
    const standing = rowsOf(book).outcome?.at(-1) as { id: number };
    refuses('outcome.correct', { ...right, replacesId: standing.id }, { code: 'wrong_stage' });
  });
});
