import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decideDivide, type LotPart, minimaOfParts, numbersOfParts } from '#lib/lot/divide-and-join.ts';
import { lotNo } from '#lib/lot/number.ts';
import { cents, sumCents } from '#lib/money/money.ts';
import { money } from '#tests/support/facts.ts';

const counted = { lotNo: lotNo('12'), by: 'piece', count: 400, weightThousandths: null, bids: 0 } as const;
const weighed = { lotNo: lotNo('13'), by: 'oz', count: null, weightThousandths: 15_500, bids: 0 } as const;
const pieces = (...counts: (number | null)[]): LotPart[] => counts.map((count) => ({ count, weightThousandths: null }));
const ounces = (...weights: (number | null)[]): LotPart[] =>
  weights.map((weightThousandths) => ({ count: null, weightThousandths }));

describe('dividing a lot', () => {
  // Muskrat lots over 350 may be divided: common practice, no source.
  it('takes parts that are the whole again', () => {
    expect(decideDivide(counted, pieces(350, 50))).toEqual({ ok: true, value: null });
    expect(decideDivide(weighed, ounces(8000, 7500))).toEqual({ ok: true, value: null });
  });

  it.each([
    ['one part', counted, pieces(400), 'missing', /at least two parts/],
    ['a piece lost', counted, pieces(350, 49), 'malformed', /has 400 pieces, but the parts make 399/],
    ['a piece too many', counted, pieces(350, 51), 'malformed', /the parts make 401/],
    ['a part without a count', counted, pieces(400, null), 'missing', /pieces of every part/],
    ['a weight lost', weighed, ounces(8000, 7499), 'malformed', /has 15.5 oz, but the parts make 15.499/],
    ['a part without a weight', weighed, ounces(15_500, null), 'missing', /weight of every part/],
    ['a count that nobody took', weighed, pieces(1, 2), 'malformed', /was not counted/],
    [
      'a weight that nobody took',
      counted,
      pieces(350, 50).map((part) => ({ ...part, weightThousandths: 1 })),
      'malformed',
      /was not weighed/,
    ],
    ['bids on the whole', { ...counted, bids: 1 }, pieces(350, 50), 'not_allowed', /has bids on it as a whole/],
  ] as const)('refuses %s', (...[, scene, parts, code, message]) => {
    expect(decideDivide(scene, parts)).toMatchObject({
      ok: false,
      code,
      message: expect.stringMatching(message),
      field: 'parts',
    });
  });
});

describe('the numbers of the parts', () => {
  it.each([
    ['12', 2, ['12'], ['12A', '12B']],
    ['12A', 3, ['12A', '12B'], ['12C', '12D', '12E']],
    ['12', 2, ['12', '12A'], ['12B', '12C']],
  ] as const)('%s in %i, beside %j', (...[own, parts, inUse, numbers]) => {
    expect(numbersOfParts(lotNo(own), parts, inUse.map(lotNo))).toEqual({ ok: true, value: numbers });
  });

  it('ends at Z', () => {
    expect(numbersOfParts(lotNo('12Z'), 2, [lotNo('12Z')])).toMatchObject({
      ok: false,
      code: 'too_large',
      field: 'parts',
    });
  });
});

describe('the minima of the parts', () => {
  it('parts a minimum for the lot by pieces, and leaves one for each piece as it is', () => {
    expect(minimaOfParts(money('100.00'), 'lot', pieces(2, 1))).toEqual([6667, 3333]);
    expect(minimaOfParts(money('25.00'), 'piece', pieces(2, 1))).toEqual([2500, 2500]);
    expect(minimaOfParts(null, 'lot', pieces(2, 1))).toEqual([null, null]);
    expect(minimaOfParts(money('0.01'), 'lot', pieces(1, 1))).toEqual([1, null]);
  });

  it('adds up to the minimum of the whole lot', () => {
    const counts = fc.array(fc.integer({ min: 1, max: 500 }), { minLength: 2, maxLength: 26 });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999_999_999 }), counts, (minimum, parts) => {
        const minima = minimaOfParts(cents(minimum), 'lot', pieces(...parts));
        expect(sumCents(minima.map((part) => part ?? cents(0)))).toBe(minimum);
      }),
    );
  });
});
