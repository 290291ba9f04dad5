import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cents, readMoney, showMoney } from '#lib/money/money.ts';
import { readRate } from '#lib/money/rate.ts';

/** How amounts and percentages are written in the United States: common practice, no source. */
describe('an amount as people write it', () => {
  it.each([
    ['$2', 200],
    ['2.', 200],
    ['$ 1,250', 125_000],
    ['1,250.5', 125_050],
    ['$8,730.73', 873_073],
    ['1,234,567.89', 123_456_789],
    [' 12.50 ', 1250],
    ['.35', 35],
    ['$.35', 35],
  ])('%j is %d cents', (text, amount) => {
    expect(readMoney(text)).toEqual({ ok: true, value: amount });
  });

  it.each(['1,25', '12,50', '12,5000', '1,2,3', '$', '2..', '$$2', '2$', '1e3', '', '2 50', '-5'])(
    '%j is refused',
    (text) => {
      expect(readMoney(text)).toMatchObject({ ok: false });
    },
  );

  it('is read back as it is shown, with a dollar sign and without', () => {
    fc.assert(
      fc.property(fc.integer({ min: -999_999_999, max: 999_999_999 }), (amount) => {
        const shown = showMoney(cents(amount));
        const signed = shown.replace(/^(-?)/, '$1$');
        for (const text of [shown, signed]) {
          expect(readMoney(text, { allowNegative: true })).toEqual({ ok: true, value: amount });
        }
      }),
    );
  });
});

describe('a percentage as people write it', () => {
  it.each([
    ['6%', '6'],
    ['6 %', '6'],
    ['3.75%', '3.75'],
    ['6.', '6'],
    [' 6 ', '6'],
  ])('%j is %s', (text, rate) => {
    expect(readRate(text)).toEqual({ ok: true, value: rate });
  });

  it.each(['%', '6%%', '101%', '-6%', 'six', ''])('%j is refused', (text) => {
    expect(readRate(text)).toMatchObject({ ok: false });
  });
});
