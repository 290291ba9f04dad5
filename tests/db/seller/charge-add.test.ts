import { describe, expect, it } from 'vitest';
import { openHall, rowsOf } from '#tests/support/hall.ts';

const charge = { saleId: 1, sellerNo: 1, kind: 'dues', amount: '25.00', how: 'deducted' } as const;

describe('charge.add', () => {
  const { book, must, refusesUntyped } = openHall();

  it('charges dues, an advance, and an adjustment in the favour of the seller', () => {
    must('charge.add', charge);
    must('charge.add', { ...charge, kind: 'advance', amount: '100', how: 'cash' });
    must('charge.add', { ...charge, kind: 'adjustment', amount: '-1.56', note: 'miscounted' });
    expect(rowsOf(book).charge).toMatchObject([
      { amount_cents: 2500 },
      { amount_cents: 10000 },
      { amount_cents: -156 },
    ]);
  });

  it.each([
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ sellerNo: 9 }, 'unknown', 'sellerNo'],
    [{ amount: '0' }, 'malformed', 'amount'],
    [{ amount: '-25.00' }, 'malformed', 'amount'],
    [{ amount: '0.005' }, 'malformed', 'amount'],
    [{ kind: 'adjustment' }, 'missing', 'note'],
    [{ kind: 'gift' }, 'malformed', 'kind'],
    [{ how: 'later' }, 'malformed', 'how'],
  ] as const)('refuses %j', (over, code, field) => {
    refusesUntyped('charge.add', { ...charge, ...over }, { code, field });
  });

  it('refuses a closed sale', () => {
    openHall({ stage: 'closed' }).refuses('charge.add', charge, { code: 'wrong_stage', field: 'saleId' });
  });
});
