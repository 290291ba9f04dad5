import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '#lib/money/decimal.ts';
import {
  addCents,
  cents,
  formatMoney,
  formatWeight,
  negate,
  parseMoney,
  parseScaled,
  showMoney,
  subtractCents,
  sumCents,
} from '#lib/money/money.ts';
import { parseRate, rate } from '#lib/money/rate.ts';

const anyCents = fc.integer({ min: -999_999_999, max: 999_999_999 }).map(cents);

describe('cents', () => {
  it.each([0.5, Number.NaN, Number.POSITIVE_INFINITY, 2 ** 53])('throws for %s', (n) => {
    expect(() => cents(n)).toThrow(RangeError);
  });
  it('knows no minus zero', () => {
    expect(Object.is(cents(-0), 0)).toBe(true);
    expect(Object.is(negate(cents(0)), 0)).toBe(true);
  });
});

describe('parseMoney', () => {
  it.each([
    ['12', 1200],
    ['12.5', 1250],
    ['12.50', 1250],
    ['.35', 35],
    ['0', 0],
    ['0.01', 1],
    ['007.10', 710],
    ['9999999.99', 999_999_999],
    // As binary floats these would be 28.999999999999996 and 114.99999999999999 cents.
    ['0.29', 29],
    ['1.15', 115],
  ])('reads %s', (text, value) => {
    expect(parseMoney(text)).toEqual({ ok: true, value });
  });

  it.each([
    ['', 'missing', 'Enter an amount'],
    ['.', 'malformed', 'Enter an amount'],
    ['12,5', 'malformed', 'Use a point for the cents, not a comma'],
    ['12,50', 'malformed', 'Use a point for the cents, not a comma'],
    ['1,250.00', 'malformed', 'Leave out the comma between the thousands'],
    ['1,250', 'malformed', 'Leave out the comma between the thousands'],
    ['12,500.00', 'malformed', 'Leave out the comma between the thousands'],
    ['1,250,000', 'malformed', 'Leave out the comma between the thousands'],
    ['0.005', 'malformed', 'at most two digits behind the point'],
    ['12.500', 'malformed', 'at most two digits behind the point'],
    ['1e3', 'malformed', 'without letters or signs'],
    ['1e10', 'malformed', 'without letters or signs'],
    ['1.5E+2', 'malformed', 'without letters or signs'],
    ['NaN', 'malformed', 'digits and a point only'],
    ['Infinity', 'malformed', 'digits and a point only'],
    ['0x10', 'malformed', 'digits and a point only'],
    ['$5', 'malformed', 'digits and a point only'],
    ['\u0661\u0662', 'malformed', 'digits and a point only'],
    ['12-50', 'malformed', 'digits and a point only'],
    ['-1', 'malformed', 'without a minus sign'],
    ['\u22121', 'malformed', 'without a minus sign'],
    ['+1', 'malformed', 'Leave out the plus sign'],
    [' 1', 'malformed', 'Leave out the spaces'],
    ['1 250', 'malformed', 'Leave out the spaces'],
    ['1\n', 'malformed', 'Leave out the spaces'],
    ['1.2.3', 'malformed', 'Use one point only'],
    ['1.25.30', 'malformed', 'Use one point only'],
    ['1..2', 'malformed', 'Use one point only'],
    ['12.', 'malformed', 'cents behind the point'],
    ['10000000', 'too_large', 'at most 9999999.99'],
    ['99999999999999999999999', 'too_large', 'at most 9999999.99'],
  ])('refuses %j and says what to do', (text, code, sentence) => {
    const result = parseMoney(text);
    expect(result).toMatchObject({ ok: false, code });
    expect(!result.ok && result.message).toContain(sentence);
  });

  it('reads a minus sign and refuses nothing where it is asked to', () => {
    expect(parseMoney('-1.56', { allowNegative: true })).toEqual({ ok: true, value: -156 });
    expect(parseMoney('--1', { allowNegative: true }).ok).toBe(false);
    expect(parseMoney('0.01', { allowZero: false })).toEqual({ ok: true, value: 1 });
    expect(parseMoney('0.00', { allowZero: false })).toMatchObject({
      ok: false,
      message: expect.stringContaining('more than'),
    });
  });

  it('never throws, and reads back what it accepts', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.stringMatching(/^[-+.,\deE ]{0,12}$/)), (text) => {
        const result = parseMoney(text, { allowNegative: true });
        if (result.ok) expect(new Decimal(formatMoney(result.value)).equals(text)).toBe(true);
        else expect(result.message).toMatch(/^[A-Z].*\.$/);
      }),
    );
  });
});

describe('formatMoney and showMoney', () => {
  it.each([
    [0, '0.00', '0.00'],
    [5, '0.05', '0.05'],
    [-5, '-0.05', '-0.05'],
    [-156, '-1.56', '-1.56'],
    [125_000, '1250.00', '1,250.00'],
    [-123_456_789, '-1234567.89', '-1,234,567.89'],
    [100_000, '1000.00', '1,000.00'],
    [99_999, '999.99', '999.99'],
  ])('%i is %s and %s', (amount, spelled, shown) => {
    expect(formatMoney(cents(amount))).toBe(spelled);
    expect(showMoney(cents(amount))).toBe(shown);
  });

  it('goes there and back', () => {
    fc.assert(
      fc.property(anyCents, (amount) => {
        expect(parseMoney(formatMoney(amount), { allowNegative: true })).toEqual({ ok: true, value: amount });
        expect(showMoney(amount).replaceAll(',', '')).toBe(formatMoney(amount));
      }),
    );
  });
});

describe('sums', () => {
  it('adds, subtracts and negates', () => {
    expect(addCents(cents(1), cents(2), cents(-5))).toBe(-2);
    expect(sumCents([])).toBe(0);
    expect(subtractCents(cents(1), cents(3))).toBe(-2);
    expect(() => addCents(cents(Number.MAX_SAFE_INTEGER), cents(1))).toThrow(RangeError);
  });
});

describe('parseRate', () => {
  it.each(['0', '6', '3.75', '100', '0.0001', '100.0000', '.5', '06'])('keeps %s as typed', (text) => {
    expect(parseRate(text)).toEqual({ ok: true, value: text });
  });
  it.each([
    ['', 'missing', 'Enter a percentage'],
    ['6 %', 'malformed', '% sign'],
    ['6 ', 'malformed', 'spaces'],
    ['-1', 'malformed', 'without a sign'],
    ['6-7', 'malformed', 'digits and a point'],
    ['3,75', 'malformed', 'not a comma'],
    ['1e1', 'malformed', 'digits and a point'],
    ['six', 'malformed', 'digits and a point'],
    ['3.75000', 'malformed', 'four digits'],
    ['3.', 'malformed', 'one point'],
    ['.', 'malformed', 'one point'],
    ['1.2.3', 'malformed', 'one point'],
    ['3.75.25', 'malformed', 'one point'],
    ['100.0001', 'too_large', 'from 0 to 100'],
    ['101', 'too_large', 'from 0 to 100'],
  ])('refuses %j', (text, code, sentence) => {
    expect(parseRate(text)).toMatchObject({ ok: false, code, message: expect.stringContaining(sentence) });
    expect(() => rate(text)).toThrow(RangeError);
  });
});

describe('formatWeight', () => {
  it.each([
    [7350, '7.35'],
    [10_000, '10'],
    [10_500, '10.5'],
    [5, '0.005'],
    [50, '0.05'],
    [0, '0'],
  ])('%i thousandths are %s', (thousandths, text) => {
    expect(formatWeight(thousandths)).toBe(text);
  });
});

describe('parseScaled', () => {
  it.each([
    ['12.5', 2, 1250],
    ['12', 2, 1200],
    ['.5', 3, 500],
    ['007.35', 3, 7350],
    ['100.0000', 4, 1_000_000],
  ])('%s at %i places is %i', (text, places, whole) => {
    expect(parseScaled(text, places)).toBe(whole);
  });
});
