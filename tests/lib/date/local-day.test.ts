import { describe, expect, it } from 'vitest';
import {
  dayAndTimeInWords,
  endOfDay,
  instantOf,
  localDay,
  localTime,
  parseTimeZone,
  startOfDay,
  timeInWords,
} from '#lib/date/date.ts';

// The distances from UTC are those of the tz database: Montana is 7 hours behind in winter and 6 in summer.
describe('the local day of an instant', () => {
  it.each([
    ['2026-11-30T03:05:00Z', 'America/Denver', '2026-11-29 20:05'],
    ['2027-01-01T06:59:59.999Z', 'America/Denver', '2026-12-31 23:59'],
    ['2027-01-01T07:00:00.000Z', 'America/Denver', '2027-01-01 00:00'],
    ['2026-07-01T05:59:00Z', 'America/Denver', '2026-06-30 23:59'],
    ['2026-12-31T12:00:00Z', 'Pacific/Kiritimati', '2027-01-01 02:00'],
    ['2026-12-31T23:30:00Z', 'UTC', '2026-12-31 23:30'],
  ])('%s in %s is %s', (instant, zone, shown) => {
    expect(`${localDay(instant, zone)} ${localTime(instant, zone)}`).toBe(shown);
  });

  // What an exchange folder may hold: ISO 8601 with any distance from UTC, or without a time.
  it.each([
    ['2026-02-28', '2026-02-28'],
    ['2026-02-28T23:30', '2026-02-28'],
    ['2026-02-28T23:30:00,5', '2026-02-28'],
    ['2026-03-01T03:30:00.123456789Z', '2026-02-28'],
    ['2026-03-01T00:30+01:00', '2026-02-28'],
    ['2026-02-28T23:30:00-1000', '2026-03-01'],
    ['2026-03-01T00:30+01', '2026-02-28'],
  ])('%s is %s in Denver: what says no distance from UTC is the hall’s own', (written, day) => {
    expect(localDay(written, 'America/Denver')).toBe(day);
  });

  it.each(['', 'yesterday', '2026-02-30', '2026-02-28T', '2026-02-28 10:00'])('nothing is made of %j', (text) => {
    expect(() => localDay(text, 'UTC')).toThrow(RangeError);
  });

  it('is said in words, with UTC only where the book goes by it', () => {
    expect(dayAndTimeInWords('2026-11-30T03:05:00Z', 'America/Denver')).toBe('2026-11-29 20:05');
    expect(dayAndTimeInWords('2026-11-30T03:05:00Z', 'UTC')).toBe('2026-11-30 03:05 UTC');
    expect(timeInWords('2026-11-30T03:05:00Z', 'Etc/UTC')).toBe('03:05 UTC');
  });

  it('begins and ends at midnight of the hall, a day of 23 or 25 hours too', () => {
    expect(startOfDay('2026-12-31', 'America/Denver')).toBe('2026-12-31T07:00:00.000Z');
    expect(endOfDay('2026-12-31', 'America/Denver')).toBe('2027-01-01T07:00:00.000Z');
    expect(endOfDay('2026-03-08', 'America/Denver')).toBe('2026-03-09T06:00:00.000Z');
    expect(endOfDay('2026-11-01', 'America/Denver')).toBe('2026-11-02T07:00:00.000Z');
  });

  it('an hour that comes twice is the first, one that is left out goes on as before', () => {
    expect(instantOf('2026-11-01', '01:30', 'America/Denver')).toBe('2026-11-01T07:30:00.000Z');
    expect(instantOf('2026-03-08', '02:30', 'America/Denver')).toBe('2026-03-08T09:30:00.000Z');
  });
});

describe('a time zone', () => {
  it.each(['America/Denver', ' Pacific/Honolulu ', 'UTC', 'Europe/Berlin'])('%j is one', (text) => {
    expect(parseTimeZone(text)).toEqual({ ok: true, value: text.trim() });
  });

  it.each([
    ['', 'missing'],
    ['  ', 'missing'],
    ['Montana', 'malformed'],
    ['-07:00', 'malformed'],
    ['+0100', 'malformed'],
    ['America/Denver; x', 'malformed'],
  ])('%j is none: %s', (text, code) => {
    expect(parseTimeZone(text)).toMatchObject({ ok: false, code });
  });
});
