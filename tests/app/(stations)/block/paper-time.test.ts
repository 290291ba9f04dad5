import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockTimeOf, paperTime } from '#app/(stations)/block/draft.ts';

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;

describe('a time on paper', () => {
  it('is the last time that the clock on the wall showed it', () => {
    const now = new Date(2026, 1, 28, 14, 30).getTime();
    expect(paperTime('14:05', now)).toBe(new Date(2026, 1, 28, 14, 5).toISOString());
    expect(paperTime('905', now)).toBe(new Date(2026, 1, 28, 9, 5).toISOString());
    expect(paperTime('1431', now)).toBe(new Date(2026, 1, 27, 14, 31).toISOString());
    for (const typed of ['', '2460', '9:5', '2:05 PM']) expect(paperTime(typed, now)).toBeNull();
  });

  it('comes back into its field as it is read there, at any hour', () => {
    // A day of 24 hours: on the day a clock is moved, an hour is on the wall twice or not at all.
    const noon = new Date(2026, 1, 27, 12, 0).getTime();
    const minutes = fc.integer({ min: 0, max: DAY / MINUTE - 1 });
    fc.assert(
      fc.property(minutes, (before) => {
        const hammerAt = new Date(noon - before * MINUTE).toISOString();
        expect(paperTime(clockTimeOf(hammerAt), noon)).toBe(hammerAt);
      }),
    );
  });
});
