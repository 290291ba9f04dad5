import { Decimal as Library } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal, percentOf, roundHalfUp } from '#lib/money/decimal.ts';
import { formatMoney, parseMoney } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';

describe('Decimal', () => {
  it('does not follow the settings of the library that others share', () => {
    const before = { precision: Library.precision, rounding: Library.rounding };
    Library.set({ precision: 3, rounding: Library.ROUND_DOWN });
    try {
      expect(new Decimal(1).dividedBy(3).toString()).toBe(`0.${'3'.repeat(40)}`);
      expect(new Decimal('0.5').toDecimalPlaces(0).toString()).toBe('1');
    } finally {
      Library.set(before);
    }
  });
  it('holds the largest product of price, weight and rate without loss', () => {
    const product = new Decimal('999999999').times('999999999').times('99.9999');
    const exact = (999_999_999n * 999_999_999n * 999_999n).toString();
    expect(product.toFixed(4)).toBe(`${exact.slice(0, -4)}.${exact.slice(-4)}`);
  });
});

describe('roundHalfUp', () => {
  it.each([
    ['0.5', 1],
    ['-0.5', -1],
    ['0.4999999999999999999999999', 0],
    ['-0.4', 0],
    ['2.5', 3],
    ['1.5', 2],
  ])('%s cents are %i', (amount, whole) => {
    const rounded = roundHalfUp(new Decimal(amount));
    expect(rounded).toBe(whole === 0 ? 0 : whole);
  });

  it('is within half a cent, and a tie goes away from zero', () => {
    fc.assert(
      fc.property(fc.integer({ min: -10_000_000, max: 10_000_000 }), (thousandths) => {
        const exact = new Decimal(thousandths).dividedBy(1000);
        const off = exact.minus(roundHalfUp(exact));
        expect(off.abs().lessThanOrEqualTo('0.5')).toBe(true);
        if (off.abs().equals('0.5')) expect(off.isNegative()).toBe(thousandths > 0);
      }),
    );
  });
});

describe('percentOf', () => {
  it.each([
    ['12.25', '6', '0.74'],
    ['338.25', '3.75', '12.68'],
    ['93.00', '6', '5.58'],
    ['-12.25', '6', '-0.74'],
    ['100.00', '0', '0.00'],
    ['100.01', '100', '100.01'],
  ])('of %s, %s %% is %s', (amount, pct, share) => {
    const read = parseMoney(amount, { allowNegative: true });
    expect(read.ok && formatMoney(roundHalfUp(percentOf(read.value, rate(pct))))).toBe(share);
  });

  it('is not rounded itself', () => {
    const read = parseMoney('12.25');
    expect(read.ok && percentOf(read.value, rate('3.75')).toString()).toBe('45.9375');
  });
});
