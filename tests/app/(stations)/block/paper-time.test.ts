import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockTimeOf, paperTime } from '#app/(stations)/block/draft.ts';
import { aheadMs } from '#lib/date/date.ts';

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;

describe('a time on paper', () => {
  it('is the last time that the clock on the wall of the association showed it', () => {
    const now = Date.parse('2026-02-28T21:30:00.000Z');
    const denver = aheadMs('2026-02-28T21:30:00Z', 'America/Denver');
    expect(denver).toBe(-7 * 60 * MINUTE);
    expect(paperTime('14:05', now, denver)).toBe('2026-02-28T21:05:00.000Z');
    expect(paperTime('905', now, denver)).toBe('2026-02-28T16:05:00.000Z');
    expect(paperTime('1431', now, denver)).toBe('2026-02-27T21:31:00.000Z');
    for (const typed of ['', '2460', '9:5', '2:05 PM']) expect(paperTime(typed, now, denver)).toBeNull();
  });

  it('comes back into its field as it is read there, at any hour and in any zone', () => {
    const noon = Date.parse('2026-02-27T12:00:00Z');
    const minutes = fc.integer({ min: 0, max: DAY / MINUTE - 1 });
    fc.assert(
      fc.property(minutes, fc.integer({ min: -12 * 60, max: 14 * 60 }), (before, ahead) => {
        const hammerAt = new Date(noon - before * MINUTE).toISOString();
        expect(paperTime(clockTimeOf(hammerAt, ahead * MINUTE), noon, ahead * MINUTE)).toBe(hammerAt);
      }),
    );
  });
});
