import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rate } from '#lib/money/rate.ts';
import { saleBalance } from '#lib/report/balance.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { boughtBack, charge, lot, sale, saleFacts, sold, terms, unpaid, unsold } from '#tests/support/facts.ts';

const facts = saleFacts({
  sale: sale({ terms: terms({ premiumPct: rate('2.5'), taxPct: rate('6.5') }) }),
  lots: [
    lot('1', { count: 3 }),
    lot('2', { donated: true }),
    lot('3', { count: 5 }),
    lot('4', { count: 7 }),
    lot('5', { count: 11 }),
  ],
  outcomes: [sold('1', '10.00'), sold('2', '4.00'), unsold('3'), unsold('4', 'withdrawn')],
  charges: [charge()],
});

describe('saleBalance', () => {
  it('shows both sides of each line', () => {
    expect(saleBalance(facts)).toMatchObject([
      { name: 'buyers', unit: 'cents', left: 3400 + 85 + 227, right: 3712, difference: 0 },
      { name: 'sellers', unit: 'cents', left: 3400, right: 3400, difference: 0 },
      {
        name: 'pieces',
        left: 27,
        right: 27,
        difference: 0,
        rightWords: '4 sold, 5 passed, 7 withdrawn, 11 not yet called',
      },
      { name: 'lots', left: 5, right: 5, difference: 0, rightWords: '2 sold, 1 passed, 1 withdrawn, 1 not yet called' },
    ]);
  });

  it('balances with lots that were bought back or not paid for, and counts them in words', () => {
    const seldom = { ...facts, outcomes: [sold('1', '10.00'), boughtBack('3', '4.00'), unpaid('4', '9.00')] };
    expect(saleBalance(seldom)).toMatchObject([
      ...[
        { left: 3000 + 75 + 200, difference: 0 },
        { left: 3000, difference: 0 },
      ],
      { name: 'pieces', difference: 0 },
      {
        ...{ name: 'lots', difference: 0 },
        rightWords: '1 sold, 0 passed, 0 withdrawn, 1 bought back, 1 not paid for, 2 not yet called',
      },
    ]);
  });

  it('shows a difference when a lot is called twice', () => {
    const twice = { ...facts, outcomes: [...facts.outcomes, sold('3', '2.00')] };
    expect(saleBalance(twice).map(({ name, difference }) => [name, difference])).toEqual([
      ['buyers', 0],
      ['sellers', 0],
      ['pieces', -5],
      ['lots', -1],
    ]);
    const soldTwice = { ...facts, outcomes: [...facts.outcomes, sold('1', '10.00')] };
    expect(saleBalance(soldTwice).map(({ difference }) => difference)).toEqual([-3000, 3000, -3, -1]);
  });

  it('holds for every sale', () => {
    fc.assert(
      fc.property(anySale, (any) => {
        expect(saleBalance(any).map(({ difference }) => difference)).toEqual([0, 0, 0, 0]);
      }),
    );
  });
});
