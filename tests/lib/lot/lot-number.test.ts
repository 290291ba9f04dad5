import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareLotNo, lotNo, nextLetter, parseLotNo, splitLotNo } from '#lib/lot/number.ts';

const anyLotNo = fc
  .tuple(fc.integer({ min: 1, max: 99_999 }), fc.constantFrom('', ...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'))
  .map(([number, letter]) => lotNo(`${number}${letter}`));

describe('parseLotNo', () => {
  it.each([
    ['12', '12'],
    ['12A', '12A'],
    ['12a', '12A'],
    ['0012b', '12B'],
    ['99999Z', '99999Z'],
  ])('reads %s as %s', (text, value) => {
    expect(parseLotNo(text)).toEqual({ ok: true, value });
  });
  it.each([
    ['', 'missing'],
    ['0', 'malformed'],
    ['0A', 'malformed'],
    ['A', 'malformed'],
    ['12AB', 'malformed'],
    ['12 A', 'malformed'],
    ['-1', 'malformed'],
    ['1.5', 'malformed'],
    ['1e3', 'malformed'],
    ['12\u00c4', 'malformed'],
    ['12\n', 'malformed'],
    ['100000', 'too_large'],
  ])('refuses %j', (text, code) => {
    expect(parseLotNo(text)).toMatchObject({ ok: false, code });
    expect(() => lotNo(text)).toThrow(RangeError);
  });
  it('reads back what it gave', () => {
    fc.assert(
      fc.property(anyLotNo, (lot) => {
        expect(lotNo(lot.toLowerCase())).toBe(lot);
        const { number, letter } = splitLotNo(lot);
        expect(`${number}${letter}`).toBe(lot);
      }),
    );
  });
});

describe('compareLotNo', () => {
  it('puts the whole number first, then the letter', () => {
    const lots = ['12B', '100', '2', '12', '12A', '1Z'].map(lotNo);
    expect([...lots].sort(compareLotNo)).toEqual(['1Z', '2', '12', '12A', '12B', '100']);
  });
  it('is an order', () => {
    fc.assert(
      fc.property(anyLotNo, anyLotNo, (a, b) => {
        expect(Math.sign(compareLotNo(a, b))).toBe(-Math.sign(compareLotNo(b, a)) + 0);
        expect(compareLotNo(a, b) === 0).toBe(a === b);
      }),
    );
  });
});

describe('nextLetter', () => {
  it('goes on behind the last letter of that number', () => {
    const inUse = ['12', '12A', '12C', '13F'].map(lotNo);
    expect(nextLetter(12, inUse)).toEqual({ ok: true, value: 'D' });
    expect(nextLetter(14, inUse)).toEqual({ ok: true, value: 'A' });
    expect(nextLetter(7, [lotNo('7Z')])).toMatchObject({ ok: false, code: 'too_large' });
  });
});
