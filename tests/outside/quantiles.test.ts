/**
 * Quantiles of type 7 (Hyndman & Fan 1996, "Sample Quantiles in Statistical Packages", The American Statistician 50,
 * 361-365) against simple-statistics of the npm registry, whose `quantileSorted` is of type 7, and against the
 * definition itself: p(k) = (k - 1) / (n - 1).
 */
import fc from 'fast-check';
import { mean, median, quantileSorted } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { Decimal } from '#lib/money/decimal.ts';
import { quantileType7, rowOf } from '#lib/price/table.ts';
import { priced } from '#tests/support/facts.ts';

const once = (values: readonly number[]) => values.map((value) => ({ value, times: 1 }));
const anyValues = fc
  .array(fc.integer({ min: 0, max: 100_000 }), { minLength: 1, maxLength: 60 })
  .map((values) => values.sort((a, b) => a - b));
/** Eighths have an exact binary form, so that only the library's own arithmetic is left to differ. */
const anyEighth = fc.integer({ min: 0, max: 8 }).map((eighths) => eighths / 8);

describe('quantileType7', () => {
  it.each([
    // Worked out by hand from the definition.
    [[1, 2, 3, 4, 5, 6, 7, 8, 9, 10], '3.25', '5.5', '7.75', '9.1'],
    [[2, 4, 4, 5, 7, 9], '4', '4.5', '6.5', '8'],
  ])('of %j has quarters %s, %s, %s and a ninth tenth of %s', (values, ...quantiles) => {
    expect(['0.25', '0.5', '0.75', '0.9'].map((p) => quantileType7(once(values), p).toString())).toEqual(quantiles);
  });

  it('differs from the other types where they differ', () => {
    // Of 1, 2, 3, 4 the first quarter is 1.75 by type 7; types 1, 3 and 4 give 1, 2 and 5 give 1.5, type 6 gives 1.25.
    expect(quantileType7(once([1, 2, 3, 4]), '0.25').toString()).toBe('1.75');
  });

  it('is the point of order k at p(k) = (k - 1) / (n - 1), and on the straight line between', () => {
    fc.assert(
      fc.property(anyValues, fc.nat(), fc.integer({ min: 0, max: 4 }), (values, at, quarters) => {
        fc.pre(values.length > 1);
        const k = at % (values.length - 1);
        const [low = 0, high = 0] = [values[k], values[k + 1]];
        const p = new Decimal(k).plus(new Decimal(quarters).dividedBy(4)).dividedBy(values.length - 1);
        const expected = new Decimal(high).minus(low).times(quarters).dividedBy(4).plus(low);
        // p itself is rounded to forty digits when n - 1 does not divide it.
        expect(quantileType7(once(values), p).minus(expected).abs().lessThan('1e-25')).toBe(true);
      }),
    );
  });

  it('agrees with simple-statistics', () => {
    fc.assert(
      fc.property(anyValues, anyEighth, (values, p) => {
        expect(quantileType7(once(values), p).toNumber()).toBeCloseTo(quantileSorted(values, p), 8);
        expect(quantileType7(once(values), '0.5').toNumber()).toBe(median(values));
      }),
      { numRuns: 1000 },
    );
  });

  it('agrees with simple-statistics on the pieces of lots laid out one by one', () => {
    const anyLots = fc.array(
      fc.record({ value: fc.integer({ min: 0, max: 9999 }), times: fc.integer({ min: 1, max: 40 }) }),
      { minLength: 1, maxLength: 20 },
    );
    fc.assert(
      fc.property(anyLots, anyEighth, (lots, p) => {
        const sorted = [...lots].sort((a, b) => a.value - b.value);
        const pieces = sorted.flatMap(({ value, times }) => Array.from({ length: times }, () => value));
        expect(quantileType7(sorted, p).toNumber()).toBeCloseTo(quantileSorted(pieces, p), 8);
        const average = rowOf(sorted.map(priced))[0]?.averageCents ?? Number.NaN;
        expect(Math.abs(average - mean(pieces))).toBeLessThanOrEqual(0.5 + 1e-8);
      }),
      { numRuns: 300 },
    );
  });
});
