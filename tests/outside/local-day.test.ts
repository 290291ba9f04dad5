/**
 * Local days against `date` of GNU coreutils, which reads the tz database of the system (IANA), and not the copy inside
 * Node. Both have to be there; without them this file fails.
 */
import { execFileSync } from 'node:child_process';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, instantOf, localDay, localTime, startOfDay } from '#lib/date/date.ts';

const ZONES = [
  ...['America/New_York', 'America/Chicago', 'America/Denver', 'America/Phoenix', 'America/Los_Angeles'],
  ...['America/Anchorage', 'Pacific/Honolulu', 'America/St_Johns', 'Europe/London', 'Australia/Lord_Howe'],
  ...['Pacific/Kiritimati', 'Pacific/Pago_Pago', 'Asia/Kathmandu', 'UTC'],
];

/** What `date` says of moments given in seconds since 1970. */
function judged(zone: string, seconds: readonly number[]): string[] {
  const input = seconds.map((one) => `@${one}\n`).join('');
  const env = { ...process.env, TZ: zone };
  return execFileSync('date', ['-f', '-', '+%F %H:%M'], { input, env, encoding: 'utf8' }).trimEnd().split('\n');
}

const ours = (zone: string, second: number) => {
  const instant = new Date(second * 1000).toISOString();
  return `${localDay(instant, zone)} ${localTime(instant, zone)}`;
};

// 15 U.S.C. § 260a: the second Sunday of March and the first of November, from 2007 on; the hours around each.
const sunday = (year: number, month: string, first: number) => {
  const days = [0, 1, 2, 3, 4, 5, 6].map((more) => addDays(`${year}-${month}-01`, first + more));
  return days.find((day) => new Date(`${day}T00:00:00Z`).getUTCDay() === 0) ?? '';
};
const anyChange = fc
  .tuple(fc.integer({ min: 2007, max: 2037 }), fc.boolean(), fc.integer({ min: -86_400, max: 86_400 }))
  .map(([year, spring, off]) => {
    const day = spring ? sunday(year, '03', 7) : sunday(year, '11', 0);
    return Date.parse(`${day}T09:00:00Z`) / 1000 + off;
  });
// From 1996 to 2037: before, zones were changed by seconds, and later ones are not decided yet.
const anySecond = fc.integer({ min: 820_454_400, max: 2_145_916_800 });

describe.each(ZONES)('the local day in %s', (zone) => {
  it('is that of `date`, at random and around the changes of the clocks', () => {
    const seconds = [...fc.sample(anySecond, 300), ...fc.sample(anyChange, 300)];
    expect(seconds.map((one) => ours(zone, one))).toEqual(judged(zone, seconds));
  });

  it('begins where `date` has its first second, and a time of day is the instant that shows it', () => {
    const days = fc.sample(anySecond, 100).map((one) => localDay(new Date(one * 1000).toISOString(), zone));
    const starts = days.map((day) => Date.parse(startOfDay(day, zone)) / 1000);
    const shown = judged(zone, [...starts, ...starts.map((one) => one - 1)]);
    const daysShown = shown.map((words) => words.replace(/ .*/, ''));
    expect(daysShown.slice(0, days.length)).toEqual(days);
    expect(daysShown.slice(days.length)).toEqual(days.map((day) => addDays(day, -1)));
    const noons = days.map((day) => Date.parse(instantOf(day, '12:05', zone)) / 1000);
    expect(judged(zone, noons)).toEqual(days.map((day) => `${day} 12:05`));
  });
});
