import { describe, expect, it } from 'vitest';
import { clockOff } from '#lib/network/clock.ts';
import { bestFirst } from '#lib/network/hosts.ts';
import { WORDS, WORDS_COMPARED, wordsOfBytes, wordsTyped } from '#lib/network/words.ts';

describe('the words by which a certificate is compared', () => {
  it('are 256 different ones of three to eight plain letters, in an order that stays', () => {
    expect(new Set(WORDS).size).toBe(256);
    expect(WORDS).toHaveLength(256);
    expect(WORDS.filter((word) => !/^[a-z]{3,8}$/.test(word))).toEqual([]);
    expect([WORDS[0], WORDS[127], WORDS[255]]).toEqual(['acorn', WORDS.toSorted()[127], 'zebra']);
  });

  it('are one for each of the first six bytes', () => {
    const bytes = Uint8Array.from([0, 255, 1, 0, 0, 2, 9, 9]);
    expect(wordsOfBytes(bytes)).toBe('acorn zebra amber acorn acorn anchor');
    expect(wordsOfBytes(bytes).split(' ')).toHaveLength(WORDS_COMPARED);
  });

  it('may be typed in any case, with any marks between', () => {
    expect(wordsTyped('  Acorn, ZEBRA-amber\n acorn')).toBe('acorn zebra amber acorn');
  });
});

describe('the clock of a device', () => {
  const NOON = Date.UTC(2026, 1, 28, 12);
  const MINUTE = 60_000;

  it.each([
    [0, ''],
    [5 * MINUTE, ''],
    [-5 * MINUTE, ''],
    [5 * MINUTE + 1, '5 minutes fast'],
    [-12 * MINUTE, '12 minutes slow'],
    [-3 * 60 * MINUTE, '3 hours slow'],
    [-2 * 24 * 60 * MINUTE, '2 days slow'],
    [400 * 24 * 60 * MINUTE, '400 days fast'],
  ])('that is %d ms off is told: %s', (off, words) => {
    const said = clockOff(NOON + off, NOON);
    expect(words === '' ? said : said.includes(words)).toBe(words === '' ? '' : true);
  });
});

it('the address to read out comes first: of a home router, then others, then names, then what is long', () => {
  const hosts = ['[fd00::2]', 'barn', 'barn.local', '172.17.0.1', '10.0.0.7', '192.168.1.10', 'barn'];
  expect(bestFirst(hosts)).toEqual(['192.168.1.10', '10.0.0.7', '172.17.0.1', 'barn.local', 'barn', '[fd00::2]']);
});
