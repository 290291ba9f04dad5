import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { amountEach, lotAmount, quantityOf } from '#lib/lot/amount.ts';
import { cents, formatMoney } from '#lib/money/money.ts';
import { lot, money } from '#tests/support/facts.ts';

describe('lotAmount', () => {
  it.each([
    ['112.75', lot('1', { count: 3 }), '338.25'],
    // Thirty-two muskrats at 13.25 (common practice, no source: the hammer price times the count).
    ['13.25', lot('1', { count: 32 }), '424.00'],
    ['101.30', lot('1', { by: 'lot', count: 40 }), '101.30'],
    ['3.50', lot('1', { by: 'oz', weightThousandths: 7350 }), '25.73'],
    ['0.01', lot('1', { by: 'lb', weightThousandths: 499 }), '0.00'],
    ['0.01', lot('1', { by: 'lb', weightThousandths: 500 }), '0.01'],
  ])('%s for %j is %s', (price, measured, amount) => {
    expect(formatMoney(lotAmount(money(price), measured))).toBe(amount);
  });

  it('throws when the figure it needs was never given', () => {
    expect(() => quantityOf(lot('1', { count: null }))).toThrow('count');
    expect(() => quantityOf(lot('1', { by: 'lb' }))).toThrow('weight');
  });

  it('is the exact product, off by half a cent at most', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 999_999_999 }),
        fc.integer({ min: 1, max: 999_999_999 }),
        (price, weight) => {
          const amount = lotAmount(cents(price), lot('1', { by: 'oz', weightThousandths: weight }));
          const exact = quantityOf(lot('1', { by: 'oz', weightThousandths: weight })).times(price);
          expect(exact.minus(amount).abs().lessThanOrEqualTo('0.5')).toBe(true);
        },
      ),
    );
  });
});

describe('amountEach', () => {
  it.each([
    ['10.01', 4, '2.50'],
    ['10.02', 4, '2.51'],
    ['10.00', 3, '3.33'],
    ['20.00', 3, '6.67'],
    ['0.01', 2, '0.01'],
  ])('%s for %i pieces are %s each', (amount, count, each) => {
    expect(formatMoney(amountEach(money(amount), count))).toBe(each);
  });
});
