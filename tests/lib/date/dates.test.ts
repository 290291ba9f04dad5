import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween, heldUntil, parseDate } from '#lib/date/date.ts';

describe('parseDate', () => {
  it.each(['2026-02-28', '2024-02-29', '2000-02-29', '1999-12-31'])('reads %s', (text) => {
    expect(parseDate(text)).toEqual({ ok: true, value: text });
  });
  it.each([
    ['', 'missing'],
    ['2026-02-29', 'malformed'],
    ['1900-02-29', 'malformed'],
    ['2026-04-31', 'malformed'],
    ['2026-13-01', 'malformed'],
    ['2026-00-10', 'malformed'],
    ['2026-01-00', 'malformed'],
    ['2026-2-8', 'malformed'],
    ['28.02.2026', 'malformed'],
    ['2026-02-28T10:00', 'malformed'],
    ['2026-02-28 ', 'malformed'],
  ])('refuses %j', (text, code) => {
    expect(parseDate(text)).toMatchObject({ ok: false, code });
  });
});

describe('addDays', () => {
  it.each([
    ['2026-02-28', 10, '2026-03-10'],
    ['2024-02-28', 1, '2024-02-29'],
    ['2026-01-01', -1, '2025-12-31'],
    ['2026-02-15', 10, '2026-02-25'],
  ])('%s and %i days is %s', (date, days, later) => {
    expect(addDays(date, days)).toBe(later);
    expect(daysBetween(date, later)).toBe(days);
  });
  it('throws for what is not a date', () => {
    expect(() => addDays('2026-02-30', 1)).toThrow(RangeError);
  });
  it('goes there and back', () => {
    fc.assert(
      fc.property(fc.integer({ min: -40_000, max: 40_000 }), (days) => {
        const later = addDays('2026-02-28', days);
        expect(parseDate(later).ok).toBe(true);
        expect(addDays(later, -days)).toBe('2026-02-28');
      }),
    );
  });
});

describe('heldUntil', () => {
  it('is ten days after the close of the season unless the sale says otherwise', () => {
    expect(heldUntil('2026-02-28')).toBe('2026-03-10');
    expect(heldUntil('2026-02-28', 5)).toBe('2026-03-05');
  });
});
