import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '#lib/decimal.ts';
import { quantileType7 } from '#lib/price-table.ts';
import { weightedMean } from '#lib/statistics.ts';

const once = (values: readonly (number | string)[]) => values.map((value) => ({ value, times: 1 }));

describe('quantileType7', () => {
  it.each([
    ['0', '1'],
    ['0.25', '3.25'],
    ['0.5', '5.5'],
    ['0.75', '7.75'],
    ['0.9', '9.1'],
    ['1', '10'],
  ])('of 1 to 10 at %s is %s', (p, value) => {
    expect(quantileType7(once([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]), p).toString()).toBe(value);
  });

  it('of one observation is that one', () => {
    expect(quantileType7([{ value: 775, times: 1 }], '0.25').toString()).toBe('775');
  });

  it('throws for nothing, and for a p that is no part', () => {
    expect(() => quantileType7([], '0.5')).toThrow(RangeError);
    expect(() => quantileType7(once([1, 2]), '1.01')).toThrow(RangeError);
    expect(() => quantileType7(once([1, 2]), '-0.01')).toThrow(RangeError);
  });

  it('does not lay pieces out: two lots of a thousand million pieces each are two observations', () => {
    const vast = [
      { value: 100, times: 1_000_000_000 },
      { value: 200, times: 1_000_000_000 },
    ];
    expect(quantileType7(vast, '0.25').toString()).toBe('100');
    expect(quantileType7(vast, '0.5').toString()).toBe('150');
    expect(quantileType7(vast, '0.75').toString()).toBe('200');
  });

  const anyLots = fc.array(
    fc.record({ value: fc.integer({ min: 0, max: 50 }), times: fc.integer({ min: 1, max: 12 }) }),
    {
      minLength: 1,
      maxLength: 12,
    },
  );
  const anyP = fc.integer({ min: 0, max: 1000 }).map((thousandths) => new Decimal(thousandths).dividedBy(1000));

  it('of lots is that of their pieces one by one, however they are lotted', () => {
    fc.assert(
      fc.property(anyLots, anyP, (lots, p) => {
        const sorted = [...lots].sort((a, b) => a.value - b.value);
        const pieces = once(sorted.flatMap(({ value, times }) => Array.from({ length: times }, () => value)));
        expect(quantileType7(sorted, p).equals(quantileType7(pieces, p))).toBe(true);
      }),
    );
  });

  it('rises with p, from the low to the high', () => {
    fc.assert(
      fc.property(anyLots, anyP, anyP, (lots, a, b) => {
        const sorted = [...lots].sort((x, y) => x.value - y.value);
        const [less, more] = a.lessThan(b) ? [a, b] : [b, a];
        expect(quantileType7(sorted, less).lessThanOrEqualTo(quantileType7(sorted, more))).toBe(true);
        expect(quantileType7(sorted, 0).toNumber()).toBe(sorted[0]?.value);
        expect(quantileType7(sorted, 1).toNumber()).toBe(sorted.at(-1)?.value);
      }),
    );
  });
});

describe('weightedMean', () => {
  it('counts each value as often as it was observed', () => {
    expect(
      weightedMean([
        { value: 1, times: 3 },
        { value: 5, times: 1 },
      ]).toString(),
    ).toBe('2');
    expect(
      weightedMean([
        { value: '0.1', times: 1 },
        { value: '0.2', times: 1 },
      ]).toString(),
    ).toBe('0.15');
    expect(() => weightedMean([])).toThrow(RangeError);
  });
  it('lies between the least and the greatest, and does not mind the order', () => {
    const anyLots = fc.array(
      fc.record({ value: fc.integer({ min: -50, max: 50 }), times: fc.integer({ min: 1, max: 12 }) }),
      { minLength: 1 },
    );
    fc.assert(
      fc.property(anyLots, (lots) => {
        const mean = weightedMean(lots);
        const values = lots.map(({ value }) => value);
        expect(mean.greaterThanOrEqualTo(Math.min(...values)) && mean.lessThanOrEqualTo(Math.max(...values))).toBe(
          true,
        );
        expect(weightedMean([...lots].reverse()).equals(mean)).toBe(true);
      }),
    );
  });
});
