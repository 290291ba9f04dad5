import { Decimal as Library } from 'decimal.js';
import { describe, expect, it } from 'vitest';
import { Decimal } from '#lib/decimal.ts';

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
