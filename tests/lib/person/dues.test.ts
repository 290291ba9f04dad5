import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { daysBetween } from '#lib/date/date.ts';
import { duesPaidUntil } from '#lib/person/dues.ts';

describe('the day to which dues are paid', () => {
  // Common practice, no source: a membership runs for a year, or to a day that the association has set.
  it.each([
    [{ heldOn: '2026-02-28', duesUntil: null }, null, '2027-02-28'],
    [{ heldOn: '2024-02-29', duesUntil: null }, null, '2025-02-28'],
    [{ heldOn: '2027-02-28', duesUntil: null }, '2026-12-31', '2028-02-28'],
    [{ heldOn: '2026-02-28', duesUntil: null }, '2026-12-31', '2027-02-28'],
    [{ heldOn: '2026-02-28', duesUntil: '2026-12-31' }, '2025-12-31', '2026-12-31'],
    [{ heldOn: '2026-02-28', duesUntil: '2026-12-31' }, '2026-12-31', '2027-12-31'],
    [{ heldOn: '2026-02-28', duesUntil: '2026-12-31' }, '2028-12-31', '2029-12-31'],
  ])('%j of somebody with dues until %s is %s', (rule, memberUntil, until) => {
    expect(duesPaidUntil(rule, memberUntil)).toBe(until);
  });

  it('is never before the sale nor before what was paid, and without a day of the sale a year ahead at most', () => {
    const day = fc
      .date({ min: new Date('2000-01-01T00:00:00Z'), max: new Date('2099-12-31T00:00:00Z'), noInvalidDate: true })
      .map((at) => at.toISOString().slice(0, 10));
    fc.assert(
      fc.property(day, fc.option(day), (heldOn, memberUntil) => {
        const until = duesPaidUntil({ heldOn, duesUntil: null }, memberUntil);
        const from = memberUntil !== null && memberUntil > heldOn ? memberUntil : heldOn;
        expect(until > from || until > heldOn).toBe(true);
        expect(memberUntil === null || until > memberUntil).toBe(true);
        expect(daysBetween(from, until)).toBeLessThanOrEqual(366);
      }),
    );
  });
});
