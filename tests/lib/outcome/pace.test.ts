import { describe, expect, it } from 'vitest';
import { paceOf } from '#lib/outcome/pace.ts';

const every = (seconds: number, lots: number, from = 0) =>
  Array.from({ length: lots }, (_, at) => from + at * seconds * 1000);

describe('the pace of a sale', () => {
  it('is a lot every fifteen seconds: 240 an hour, and 100 lots take 25 minutes', () => {
    expect(paceOf(every(15, 30), 100)).toEqual({
      ...{ lotsAnHour: 240, minutesLeft: 25 },
      // The thirtieth lot fell 435 seconds after the first, and 1,500 are left.
      doneAtMs: 1_935_000,
    });
  });

  it('leaves a break out', () => {
    const afterLunch = every(15, 20, 3_600_000);
    expect(paceOf([...every(15, 5), ...afterLunch], 4)?.lotsAnHour).toBe(240);
  });

  it('is not known before two lots were called, nor where all have one time', () => {
    expect(paceOf([], 10)).toBeNull();
    expect(paceOf([5], 10)).toBeNull();
    expect(paceOf([5, 5, 5], 10)).toBeNull();
  });
});
