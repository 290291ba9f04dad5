import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Decimal } from '#lib/decimal.ts';
import {
  addCents,
  allocate,
  cents,
  formatMoney,
  negate,
  parseMoney,
  percentOf,
  scaleHalfUp,
  showMoney,
  subtractCents,
  sumCents,
} from '#lib/money.ts';
import { rate } from '#lib/quantity.ts';
import { roundHalfUp } from '#lib/round.ts';

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
    ['1,250.00', 'malformed', 'Leave out the comma between the thousands'],
    ['0.005', 'malformed', 'at most two digits behind the point'],
    ['12.500', 'malformed', 'at most two digits behind the point'],
    ['1e3', 'malformed', 'without an exponent'],
    ['1.5E+2', 'malformed', 'without an exponent'],
    ['NaN', 'malformed', 'digits and a point only'],
    ['Infinity', 'malformed', 'digits and a point only'],
    ['0x10', 'malformed', 'digits and a point only'],
    ['$5', 'malformed', 'digits and a point only'],
    ['\u0661\u0662', 'malformed', 'digits and a point only'],
    ['-1', 'malformed', 'without a minus sign'],
    ['\u22121', 'malformed', 'without a minus sign'],
    ['+1', 'malformed', 'Leave out the plus sign'],
    [' 1', 'malformed', 'Leave out the spaces'],
    ['1 250', 'malformed', 'Leave out the spaces'],
    ['1\n', 'malformed', 'Leave out the spaces'],
    ['1.2.3', 'malformed', 'Use one point only'],
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

describe('roundHalfUp', () => {
  it.each([
    ['0.5', 1],
    ['-0.5', -1],
    ['0.4999999999999999999999999', 0],
    ['-0.4', 0],
    ['2.5', 3],
    ['1.5', 2],
  ])('%s cents are %i', (amount, whole) => {
    const rounded = roundHalfUp(new Decimal(amount));
    expect(rounded).toBe(whole === 0 ? 0 : whole);
  });

  it('is within half a cent, and a tie goes away from zero', () => {
    fc.assert(
      fc.property(fc.integer({ min: -10_000_000, max: 10_000_000 }), (thousandths) => {
        const exact = new Decimal(thousandths).dividedBy(1000);
        const off = exact.minus(roundHalfUp(exact));
        expect(off.abs().lessThanOrEqualTo('0.5')).toBe(true);
        if (off.abs().equals('0.5')) expect(off.isNegative()).toBe(thousandths > 0);
      }),
    );
  });
});

describe('scaleHalfUp', () => {
  it.each([
    [2573, 1, 1, 2573],
    [5, 500, 1000, 3],
    [5, 499, 1000, 2],
    [-5, 500, 1000, -3],
    [-5, 499, 1000, -2],
    [0, 500, 1000, 0],
    // The product is past the whole numbers that hold exactly.
    [999_999_999, 999_999_999, 1000, 999_999_998_000_000],
  ])('%i times %i over %i is %i', (...[amount, times, per, result]) => {
    expect(scaleHalfUp(cents(amount), times, per)).toBe(result);
  });

  it('is the decimal product and quotient, rounded once', () => {
    const times = fc.integer({ min: 0, max: 999_999_999 });
    fc.assert(
      fc.property(anyCents, times, fc.constantFrom(1, 2, 3, 1000, 1_000_000), (...[amount, factor, per]) => {
        fc.pre(Math.abs(amount) * (factor / per) < Number.MAX_SAFE_INTEGER);
        const exact = roundHalfUp(new Decimal(amount).times(factor).dividedBy(per));
        expect(scaleHalfUp(amount, factor, per)).toBe(exact);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('percentOf', () => {
  it.each([
    ['12.25', '6', '0.74'],
    ['338.25', '3.75', '12.68'],
    ['93.00', '6', '5.58'],
    ['-12.25', '6', '-0.74'],
    ['100.00', '0', '0.00'],
    ['100.01', '100', '100.01'],
  ])('of %s, %s %% is %s', (amount, pct, share) => {
    const read = parseMoney(amount, { allowNegative: true });
    expect(read.ok && formatMoney(percentOf(read.value, rate(pct)))).toBe(share);
  });
});

describe('allocate', () => {
  it.each([
    [40_643, [2, 1], [27_095, 13_548]],
    [100, [1, 1, 1], [34, 33, 33]],
    [5, [1, 1], [3, 2]],
    [-5, [1, 1], [-2, -3]],
    [-100, [1, 1, 1], [-33, -33, -34]],
    [-656, [1], [-656]],
    [0, [3, 4], [0, 0]],
    [1, [0, 1], [0, 1]],
    [101, [5, 2, 7], [36, 14, 51]],
  ])('%i by %j is %j', (total, parts, shares) => {
    expect(allocate(cents(total), parts)).toEqual(shares);
  });

  it.each([[[]], [[0, 0]], [[1, -1]], [[0.5, 1]]])('throws for the parts %j', (parts) => {
    expect(() => allocate(cents(100), parts)).toThrow(RangeError);
  });

  const anyParts = fc
    .array(fc.integer({ min: 0, max: 1_000_000 }), { minLength: 1, maxLength: 12 })
    .filter((parts) => parts.some((part) => part > 0));

  it('adds up, and gives each its share to within a cent, also of what is owed', () => {
    fc.assert(
      fc.property(anyCents, anyParts, (total, parts) => {
        const shares = allocate(total, parts);
        expect(sumCents(shares)).toBe(total);
        const sum = parts.reduce((so, part) => so + part, 0);
        shares.forEach((share, at) => {
          const exact = new Decimal(total).times(parts[at] ?? 0).dividedBy(sum);
          expect(exact.minus(share).abs().lessThan(1)).toBe(true);
        });
      }),
    );
  });

  it('gives equal parts to the earlier first, and no greater part less', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1_000_000 }).map(cents), anyParts, (total, parts) => {
        const shares = allocate(total, parts);
        for (let a = 0; a < parts.length; a += 1) {
          for (let b = a + 1; b < parts.length; b += 1) {
            const [partA = 0, partB = 0, shareA = 0, shareB = 0] = [parts[a], parts[b], shares[a], shares[b]];
            if (partA >= partB) expect(shareA).toBeGreaterThanOrEqual(shareB);
          }
        }
      }),
    );
  });
});
