import { beforeEach, expect, it, vi } from 'vitest';
import { noteClock, noteHttpAtHttps, noteWrongName, turnedAway } from '#app/server/guard/turned-away.ts';

vi.mock('server-only', () => ({}));

const [HOUR, DAY] = [3_600_000, 86_400_000];
const words = (now: number) => turnedAway(now).map((one) => one.words);

beforeEach(() => {
  delete (globalThis as { peltryTurnedAway?: unknown }).peltryTurnedAway;
});

it('keeps each cause once with its newest time, newest first, for an hour', () => {
  noteWrongName('barn.lan:3000', 0);
  noteHttpAtHttps(1);
  noteWrongName('barn.lan:3000', 2);
  expect(turnedAway(3).map(({ at }) => at)).toEqual([2, 1]);
  expect(words(3)[0]).toContain('asked for “barn.lan”');
  expect(words(3)[1]).toContain('http to the port for https');
  expect(words(2 + HOUR)).toEqual([]);
});

it('says whose clock is off and how far, and nothing of one that is right', () => {
  noteClock('Ada', DAY, DAY + 1000);
  expect(words(DAY + 1000)).toEqual([]);
  noteClock('Ada', 0, 2 * DAY);
  noteClock('Bea', 402 * DAY, 2 * DAY);
  expect(words(2 * DAY)[1]).toContain('device of Ada is 2 days slow');
  expect(words(2 * DAY)[0]).toContain('device of Bea is 400 days fast');
});

it('repeats nothing that is no name, and keeps the newest eight only', () => {
  noteWrongName('<b>no</b>', 0);
  expect(words(0)[0]).toContain('a name that cannot be read');
  for (let n = 0; n < 20; n += 1) noteWrongName(`barn${n}.lan`, n);
  expect(words(20)).toHaveLength(8);
  expect(words(20)[0]).toContain('barn19.lan');
});
