import { describe, expect, it } from 'vitest';
import { parseLotList } from '#lib/lot/number.ts';

describe('several lot numbers in one field', () => {
  it.each(['12+15+18', '12, 15, 18', ' 12 15 18 ', '012+15+18'])('reads %s', (text) => {
    expect(parseLotList(text)).toEqual({ ok: true, value: ['12', '15', '18'] });
  });

  it.each([
    ['', 'missing'],
    ['12', 'missing'],
    ['12+12', 'malformed'],
    ['12+x', 'malformed'],
    ['12a+12A', 'malformed'],
    [Array.from({ length: 51 }, (_, at) => at + 1).join('+'), 'too_large'],
  ])('refuses “%s”', (text, code) => {
    expect(parseLotList(text)).toMatchObject({ ok: false, code, field: 'lots' });
  });
});
