import { describe, expect, it } from 'vitest';
import { hostOf, isThisMachine, parseHostName } from '#lib/network/hosts.ts';

describe('a name or address of a machine', () => {
  it.each([
    ['Hall.Local', 'hall.local'],
    [' 192.168.1.10 ', '192.168.1.10'],
    ['[fd00::1]', '[fd00::1]'],
    ['a'.repeat(63), 'a'.repeat(63)],
  ])('%s is one', (typed, name) => expect(parseHostName(typed)).toEqual({ ok: true, value: name }));

  // RFC 1123, section 2.1: labels of letters, digits and hyphens, 63 at most, 255 together.
  it.each([
    'http://hall.local',
    'hall.local:3000',
    'hall_local',
    '-hall',
    'hall-',
    'hall..local',
    '300.1.1.1',
    'fd00::1',
    'ha ll',
    'a'.repeat(64),
    `${'a.'.repeat(130)}b`,
    'hall.local/x',
    '*',
  ])('%s is none', (typed) => expect(parseHostName(typed)).toMatchObject({ ok: false, code: 'malformed' }));

  it('says what to enter where there is nothing', () =>
    expect(parseHostName('  ')).toMatchObject({ ok: false, code: 'missing' }));
});

describe('the Host of a request', () => {
  // RFC 9110, section 7.2: a host, and a port where it is not the usual one.
  it.each([
    ['hall.local:3000', 'hall.local'],
    ['LOCALHOST', 'localhost'],
    ['[::1]:3443', '[::1]'],
    ['a@b:80', undefined],
    ['hall.local:3000:1', undefined],
    ['', undefined],
    [null, undefined],
  ])('%s', (header, host) => expect(hostOf(header)).toBe(host));
});

describe('this machine', () => {
  it.each(['localhost', '127.0.0.1', '127.8.8.8', '[::1]'])('is %s', (host) => expect(isThisMachine(host)).toBe(true));
  it.each(['127.0.0.1.elsewhere.test', 'localhost.elsewhere.test', '192.168.1.10', '1127.0.0.1', '[::2]'])(
    'is not %s',
    (host) => expect(isThisMachine(host)).toBe(false),
  );
});
