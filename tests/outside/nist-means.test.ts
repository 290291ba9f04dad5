/**
 * Means against the Statistical Reference Datasets of NIST, univariate summary statistics (itl.nist.gov/div898/strd):
 * sets that are made to lose digits in binary floats. NumAcc1 and NumAcc4 are whole here; their certified means are
 * exact. NumAcc2 and NumAcc3 have the same make with other figures (from memory).
 */
import { describe, expect, it } from 'vitest';
import { weightedMean } from '#lib/statistics.ts';

/** A first value, then two values in turn, as the NumAcc sets are made. */
function inTurn(first: string, [low, high]: readonly [string, string], pairs: number) {
  const values = Array.from({ length: pairs }, () => [low, high]).flat();
  return [first, ...values].map((value) => ({ value, times: 1 }));
}

describe('NIST StRD means', () => {
  it('NumAcc1: three values, mean 10000002', () => {
    const values = ['10000001', '10000003', '10000002'].map((value) => ({ value, times: 1 }));
    expect(weightedMean(values).toString()).toBe('10000002');
  });
  it('NumAcc2: 1001 values, mean 1.2', () => {
    expect(weightedMean(inTurn('1.2', ['1.1', '1.3'], 500)).toString()).toBe('1.2');
  });
  it('NumAcc3: 1001 values, mean 1000000.2', () => {
    expect(weightedMean(inTurn('1000000.2', ['1000000.1', '1000000.3'], 500)).toString()).toBe('1000000.2');
  });
  it('NumAcc4: 1001 values, mean 10000000.2, one by one and as three lots', () => {
    const values = inTurn('10000000.2', ['10000000.1', '10000000.3'], 500);
    expect(values).toHaveLength(1001);
    expect(weightedMean(values).toString()).toBe('10000000.2');
    const lots = [
      { value: '10000000.2', times: 1 },
      { value: '10000000.1', times: 500 },
      { value: '10000000.3', times: 500 },
    ];
    expect(weightedMean(lots).toString()).toBe('10000000.2');
    // The same sum in binary floats is off, which is why prices are not summed in them.
    expect(values.reduce((so, { value }) => so + Number.parseFloat(value), 0) / 1001).not.toBe(10000000.2);
  });
});
