import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lotAmount, quantityOf } from '#lib/lot/amount.ts';
import { cents, formatMoney, parseRate, rate } from '#lib/money.ts';
import { formatWeight, parseCount, parseWeight } from '#lib/quantity.ts';
import { lot, money } from '#tests/support/facts.ts';

describe('parseRate', () => {
  it.each(['0', '6', '3.75', '100', '0.0001', '100.0000', '.5', '06'])('keeps %s as typed', (text) => {
    expect(parseRate(text)).toEqual({ ok: true, value: text });
  });
  it.each([
    ['', 'missing', 'Enter a percentage'],
    ['6 %', 'malformed', '% sign'],
    ['6 ', 'malformed', 'spaces'],
    ['-1', 'malformed', 'without a sign'],
    ['3,75', 'malformed', 'not a comma'],
    ['1e1', 'malformed', 'digits and a point'],
    ['six', 'malformed', 'digits and a point'],
    ['3.75000', 'malformed', 'four digits'],
    ['3.', 'malformed', 'one point'],
    ['.', 'malformed', 'one point'],
    ['1.2.3', 'malformed', 'one point'],
    ['100.0001', 'too_large', 'from 0 to 100'],
    ['101', 'too_large', 'from 0 to 100'],
  ])('refuses %j', (text, code, sentence) => {
    expect(parseRate(text)).toMatchObject({ ok: false, code, message: expect.stringContaining(sentence) });
    expect(() => rate(text)).toThrow(RangeError);
  });
});

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

describe('lotAmount', () => {
  it.each([
    ['112.75', lot('1', { count: 3 }), '338.25'],
    // Thirty-two muskrats at 13.25 (common practice, no source: the hammer price times the count).
    ['13.25', lot('1', { count: 32 }), '424.00'],
    ['101.30', lot('1', { by: 'lot', count: 40 }), '101.30'],
    ['3.50', lot('1', { by: 'oz', weightThousandths: 7350 }), '25.73'],
    ['0.01', lot('1', { by: 'lb', weightThousandths: 499 }), '0.00'],
    ['0.01', lot('1', { by: 'lb', weightThousandths: 500 }), '0.01'],
  ])('%s for %j is %s', (price, measured, amount) => {
    expect(formatMoney(lotAmount(money(price), measured))).toBe(amount);
  });

  it('throws when the figure it needs was never given', () => {
    expect(() => quantityOf(lot('1', { count: null }))).toThrow('count');
    expect(() => quantityOf(lot('1', { by: 'lb' }))).toThrow('weight');
  });

  it('is the exact product, off by half a cent at most', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 999_999_999 }),
        fc.integer({ min: 1, max: 999_999_999 }),
        (price, weight) => {
          const amount = lotAmount(cents(price), lot('1', { by: 'oz', weightThousandths: weight }));
          const exact = quantityOf(lot('1', { by: 'oz', weightThousandths: weight })).times(price);
          expect(exact.minus(amount).abs().lessThanOrEqualTo('0.5')).toBe(true);
        },
      ),
    );
  });
});
