import { describe, expect, it } from 'vitest';
import { clockWarning } from '#lib/date/date.ts';

const now = '2026-02-28T10:00:00.000Z';

describe('the clock', () => {
  it.each([
    ['an empty book', { now, newest: null, heldOn: null }],
    ['a line of a moment ago', { now, newest: '2026-02-28T09:59:59.000Z', heldOn: '2026-02-28' }],
    ['a small step back', { now, newest: '2026-02-28T10:01:59.000Z', heldOn: null }],
    ['a sale in four months', { now, newest: null, heldOn: '2026-06-28' }],
  ])('is believed with %s', (_, ground) => {
    expect(clockWarning({ ...ground, timeZone: 'UTC' })).toBeNull();
  });

  it('is doubted where it is behind the newest entry', () => {
    const said = clockWarning({ now, newest: '2026-02-28T10:05:00.000Z', heldOn: null, timeZone: 'UTC' });
    expect(said).toMatch(
      /says Feb 28, 2026, 10:00 AM UTC, and the newest entry is of Feb 28, 2026, 10:05 AM UTC.*Set the clock/,
    );
  });

  it.each(['2025-02-28', '2027-02-28'])('is doubted where it is a year off the sale of %s', (heldOn) => {
    expect(clockWarning({ now, newest: null, heldOn, timeZone: 'UTC' })).toContain(
      `the sale that is being held is of Feb 28, ${heldOn.slice(0, 4)}.`,
    );
  });

  it('is told as the hall has it, and a day is that of the hall', () => {
    const evening = { now: '2026-11-30T03:00:00.000Z', timeZone: 'America/Denver' };
    expect(clockWarning({ ...evening, newest: '2026-11-30T03:05:00.000Z', heldOn: null })).toMatch(
      /says Nov 29, 2026, 8:00 PM, and the newest entry is of Nov 29, 2026, 8:05 PM\. /,
    );
    // 120 days from November 29 are just within; from the day it is in UTC they would be 121.
    expect(clockWarning({ ...evening, newest: null, heldOn: '2026-08-01' })).toBeNull();
  });
});
