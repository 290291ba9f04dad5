import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatWeight } from '#lib/money/money.ts';
import { parseCount, parseWeight } from '#lib/quantity/quantity.ts';

describe('parseWeight and formatWeight', () => {
  it.each([
    ['7.35', 7350],
    ['0.001', 1],
    ['.5', 500],
    ['12', 12_000],
    ['999999.999', 999_999_999],
  ])('reads %s', (text, thousandths) => {
    expect(parseWeight(text)).toEqual({ ok: true, value: thousandths });
  });
  it.each([
    ['', 'missing', 'Enter the weight'],
    ['0', 'malformed', 'more than 0'],
    ['0.000', 'malformed', 'more than 0'],
    ['-1', 'malformed', 'without a sign'],
    ['7,35', 'malformed', 'not a comma'],
    ['7.35 lb', 'malformed', 'spaces'],
    ['7.35lb', 'malformed', 'without the unit'],
    ['1e3', 'malformed', 'without the unit'],
    ['7.3505', 'malformed', 'three digits'],
    ['7.', 'malformed', 'one point'],
    ['1000000', 'too_large', 'at most 999999.999'],
  ])('refuses %j', (text, code, sentence) => {
    expect(parseWeight(text)).toMatchObject({ ok: false, code, message: expect.stringContaining(sentence) });
  });
  it.each([
    [7350, '7.35'],
    [1, '0.001'],
    [12_000, '12'],
    [999_999_999, '999999.999'],
  ])('%i thousandths are %s', (thousandths, text) => {
    expect(formatWeight(thousandths)).toBe(text);
  });
  it('goes there and back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999_999_999 }), (thousandths) => {
        expect(parseWeight(formatWeight(thousandths))).toEqual({ ok: true, value: thousandths });
      }),
    );
  });
});

describe('parseCount', () => {
  it.each([
    ['1', 1],
    ['012', 12],
    ['99999', 99_999],
  ])('reads %s', (text, count) => {
    expect(parseCount(text)).toEqual({ ok: true, value: count });
  });
  it.each([
    ['', 'missing'],
    ['0', 'malformed'],
    ['-3', 'malformed'],
    ['1.5', 'malformed'],
    ['1e3', 'malformed'],
    ['twelve', 'malformed'],
    ['100000', 'too_large'],
  ])('refuses %j', (text, code) => {
    expect(parseCount(text)).toMatchObject({ ok: false, code });
  });
});
