import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { amountLineOf, previewAmount } from '#app/(stations)/block/call-amount.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { BYS } from '#lib/lot/fields.ts';
import { cents } from '#lib/money/money.ts';

describe('what a price comes to', () => {
  it.each([
    // Common practice, no source: 32 muskrats at 13.25 make 424.00.
    ['13.25', { by: 'piece', count: 32, weightThousandths: null }, '32 × 13.25 = 424.00'],
    // Worked by hand.
    ['50', { by: 'lb', count: null, weightThousandths: 813 }, '0.813 lb × 50.00 = 40.65'],
    ['1250', { by: 'lot', count: 3, weightThousandths: null }, 'the lot = 1,250.00'],
    ['2.00', { by: 'oz', count: null, weightThousandths: 7350 }, '7.35 oz × 2.00 = 14.70'],
    ['12,5', { by: 'piece', count: 32, weightThousandths: null }, ''],
    ['0', { by: 'piece', count: 32, weightThousandths: null }, ''],
    ['', { by: 'piece', count: 32, weightThousandths: null }, ''],
    ['2.00', { by: 'lb', count: null, weightThousandths: null }, ''],
  ] as const)('%s of %j is “%s”', (typed, lot, line) => {
    expect(amountLineOf(typed, lot)).toBe(line);
  });

  it('is the amount of the book to the cent, also on half a cent', () => {
    const any = fc.record({
      by: fc.constantFrom(...BYS),
      count: fc.integer({ min: 1, max: 99_999 }),
      weightThousandths: fc.oneof(
        fc.integer({ min: 1, max: 999_999_999 }),
        // Half a pound too many at an odd price ends on half a cent.
        fc.nat({ max: 999_998 }).map((pounds) => 1000 * pounds + 500),
      ),
    });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999_999_999 }).map(cents), any, (price, lot) => {
        expect(previewAmount(price, lot)).toBe(lotAmount(price, lot));
      }),
      { numRuns: 2000 },
    );
  });
});
