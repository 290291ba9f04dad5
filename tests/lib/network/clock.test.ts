import { expect, it } from 'vitest';
import { clockOff, clockOffBy } from '#lib/network/clock.ts';

const NOW = Date.parse('2026-02-28T15:00:00Z');
const DAY = 86_400_000;

it.each([
  [-2 * DAY, '2 days slow'],
  [2 * DAY, '2 days fast'],
  [-400 * DAY, '400 days slow'],
  [400 * DAY, '400 days fast'],
  [-3 * 3_600_000, '3 hours slow'],
  [6 * 60_000, '6 minutes fast'],
  [-5 * 60_000, ''],
])('tells a clock that is off by %d ms: %s', (off, words) => {
  expect(clockOffBy(NOW + off, NOW)).toBe(words);
  expect(clockOff(NOW + off, NOW)).toBe(
    words && `The clock of this device is ${words}: set it to the hall's time, then reload this page.`,
  );
});
