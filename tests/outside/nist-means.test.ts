/**
 * Averages of the price table against the Statistical Reference Datasets of NIST, univariate summary statistics
 * (itl.nist.gov/div898/strd): sets that are made to lose digits in binary floats. NumAcc1 and NumAcc4 are whole here; their
 * certified means are exact. NumAcc2 and NumAcc3 have the same make with other figures (from memory). The values have at
 * most one place and so are prices in tenths here, which makes each certified mean a whole number too.
 */
import { describe, expect, it } from 'vitest';
import { rowOf } from '#lib/price/table.ts';
import { priced } from '#tests/support/facts.ts';

interface Value {
  readonly value: number;
  readonly times: number;
}

const average = (values: readonly Value[]) => rowOf(values.map(priced))[0]?.averageCents;

/** A first value, then two values in turn, as the NumAcc sets are made; all in tenths. */
function inTurn(first: number, [low, high]: readonly [number, number], pairs: number): Value[] {
  const values = Array.from({ length: pairs }, () => [low, high]).flat();
  return [first, ...values].map((value) => ({ value, times: 1 }));
}

describe('NIST StRD means', () => {
  it('NumAcc1: three values, mean 10000002', () => {
    const values = [10_000_001, 10_000_003, 10_000_002].map((value) => ({ value: value * 10, times: 1 }));
    expect(average(values)).toBe(100_000_020);
  });
  it('NumAcc2: 1001 values, mean 1.2', () => {
    expect(average(inTurn(12, [11, 13], 500))).toBe(12);
  });
  it('NumAcc3: 1001 values, mean 1000000.2', () => {
    expect(average(inTurn(10_000_002, [10_000_001, 10_000_003], 500))).toBe(10_000_002);
  });
  it('NumAcc4: 1001 values, mean 10000000.2, one by one and as three lots', () => {
    const values = inTurn(100_000_002, [100_000_001, 100_000_003], 500);
    expect(values).toHaveLength(1001);
    expect(average(values)).toBe(100_000_002);
    const lots = [
      { value: 100_000_002, times: 1 },
      { value: 100_000_001, times: 500 },
      { value: 100_000_003, times: 500 },
    ];
    expect(average(lots)).toBe(100_000_002);
    // The same sum in binary floats is off, which is why prices are not summed in them.
    expect(values.reduce((so, { value }) => so + value / 10, 0) / 1001).not.toBe(10_000_000.2);
  });
});
