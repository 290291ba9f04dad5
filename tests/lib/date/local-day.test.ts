import { describe, expect, it } from 'vitest';
import {
  endOfDay,
  instantOf,
  listedMoment,
  localDay,
  localTime,
  momentInWords,
  parseTimeZone,
  startOfDay,
  timeInWords,
  whenInWords,
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
    expect(momentInWords('2026-11-30T03:05:00Z', 'America/Denver')).toBe('Nov 29, 2026, 8:05 PM');
    expect(momentInWords('2026-11-30T03:05:00Z', 'UTC')).toBe('Nov 30, 2026, 3:05 AM UTC');
    expect(timeInWords('2026-11-30T03:05:00Z', 'Etc/UTC')).toBe('3:05 AM UTC');
    const hours = ['07:00', '08:05', '18:59', '19:00'].map((at) => `2026-11-30T${at}:00Z`);
    const said = ['12:00 AM', '1:05 AM', '11:59 AM', '12:00 PM'];
    expect(hours.map((at) => timeInWords(at, 'America/Denver'))).toEqual(said);
  });

  it('leaves the day out where it is today, in a list and in a sentence', () => {
    const [evening, morning] = ['2026-11-30T03:05:00Z', '2026-11-30T15:00:00Z'];
    expect(listedMoment(evening, evening, 'America/Denver')).toBe('8:05 PM');
    expect(listedMoment(evening, morning, 'America/Denver')).toBe('Nov 29, 2026, 8:05 PM');
    expect(whenInWords(evening, evening, 'America/Denver')).toBe('at 8:05 PM');
    expect(whenInWords(evening, morning, 'America/Denver')).toBe('on Nov 29, 2026 at 8:05 PM');
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
