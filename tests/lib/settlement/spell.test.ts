import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { longDate } from '#lib/date/date.ts';
import { addressLines, clean, listed, priceFor, quantityFor } from '#lib/settlement/spelling.ts';
import { lot, money } from '#tests/support/facts.ts';

describe('a date in words', () => {
  it.each([
    ['2026-02-28', 'February 28, 2026'],
    ['2025-12-01', 'December 1, 2025'],
    ['2026-09-10', 'September 10, 2026'],
  ])('%s is %s', (date, words) => {
    expect(longDate(date)).toBe(words);
  });
});

describe('a price with what it stands for', () => {
  it.each([
    ['112.75', 'piece', '112.75 each'],
    ['101.30', 'lot', '101.30 the lot'],
    ['3.50', 'oz', '3.50 / oz'],
    ['1250.00', 'lb', '1,250.00 / lb'],
  ] as const)('%s by %s', (price, by, words) => {
    expect(priceFor(money(price), by).words).toBe(words);
  });
});

describe('a quantity', () => {
  it.each([
    [{ by: 'piece', count: 3 }, '3 pieces'],
    [{ by: 'piece', count: 1 }, '1 piece'],
    [{ by: 'lot', count: 40 }, '40 pieces'],
    [{ by: 'oz', count: 1, weightThousandths: 7350 }, '7.35 oz'],
    [{ by: 'lb', count: null, weightThousandths: 52_830 }, '52.83 lb'],
    [{ by: 'oz', count: 16, weightThousandths: null }, ''],
  ] as const)('%j', (over, words) => {
    expect(quantityFor(lot('1', over)).words).toBe(words);
  });
});

describe('an address', () => {
  const harrow = { street: '1 Mill Road', city: 'Harrow', region: 'WY', postcode: '82000' };
  it.each([
    [{}, ['1 Mill Road', 'Harrow, WY 82000']],
    [{ region: '' }, ['1 Mill Road', 'Harrow 82000']],
    [{ postcode: '' }, ['1 Mill Road', 'Harrow, WY']],
    [{ street: ' ', city: '', postcode: '' }, ['WY']],
    [{ street: '', city: '', region: '', postcode: '' }, []],
  ])('%j', (over, lines) => {
    expect(addressLines({ ...harrow, ...over })).toEqual(lines);
  });
});

describe('typed text', () => {
  it('is composed, without runs of blanks and without ready-made ligatures', () => {
    expect(clean(' Zoe\u0308 \n de\tla  Vega ')).toBe('Zo\u00eb de la Vega');
    expect(clean('Gri\ufb03n \ufb01sher')).toBe('Griffin fisher');
  });

  it('is the same when cleaned again', () => {
    fc.assert(fc.property(fc.string({ unit: 'grapheme' }), (text) => clean(clean(text)) === clean(text)));
  });
});

it('names in a sentence', () => {
  expect([[], ['A'], ['A', 'B'], ['A', 'B', 'C']].map(listed)).toEqual(['', 'A', 'A and B', 'A, B and C']);
});
