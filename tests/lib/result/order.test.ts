import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareCodePoints } from '#lib/result/text.ts';

describe('compareCodePoints', () => {
  it('puts capitals before small letters, and those before letters with marks', () => {
    expect(['east', 'West', '', '\u00e9tang', 'North', 'eas'].sort(compareCodePoints)).toEqual([
      '',
      'North',
      'West',
      'eas',
      'east',
      '\u00e9tang',
    ]);
  });
  it('puts a code point above U+FFFF last, where UTF-16 would not', () => {
    expect(compareCodePoints('\u{1F9AB}', '\uFF21')).toBeGreaterThan(0);
    expect('\u{1F9AB}' < '\uFF21').toBe(true);
  });
  it('orders as the bytes of UTF-8 do', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.string({ unit: 'grapheme' }), (a, b) => {
        expect(Math.sign(compareCodePoints(a, b))).toBe(Math.sign(Buffer.compare(Buffer.from(a), Buffer.from(b))));
      }),
    );
  });
});
