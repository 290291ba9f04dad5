import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { goodsRanges, LEVELS, type RangePart } from '#lib/price/parts.ts';
import { businesses, type OfferedLot, rangeOf } from '#lib/price/range.ts';
import { anyOffered, offered, unsoldLot } from '#tests/support/prices.ts';

/** The lots a part speaks of, found again from its headings alone. */
function lotsOf(lots: readonly OfferedLot[], { level, values }: RangePart): OfferedLot[] {
  return lots.filter((lot) => values.includes(lot[level]));
}

/** Calls back with the lots of every range that stands in a tree and of every remainder a reader could work out. */
function everyShown(lots: readonly OfferedLot[], parts: readonly RangePart[], see: (lots: OfferedLot[]) => void): void {
  for (let choice = 1; choice < 2 ** parts.length; choice += 1) {
    const taken = parts.filter((_, at) => choice & (1 << at)).flatMap((part) => lotsOf(lots, part));
    see(taken);
    see(lots.filter((lot) => !taken.includes(lot)));
  }
  for (const part of parts) everyShown(lotsOf(lots, part), part.parts, see);
}

const three = (over: Partial<OfferedLot>, price = 1000) =>
  [1, 2, 3].map((at) => offered({ ...over, seller: at, buyer: 10 + at, price }));

describe('the parts of a range', () => {
  it('show nothing of fewer sellers or buyers than was asked, nor by taking parts from the whole', () => {
    fc.assert(
      fc.property(fc.array(anyOffered, { maxLength: 40 }), fc.integer({ min: 1, max: 4 }), (lots, fewest) => {
        for (const { range, parts } of goodsRanges(lots, fewest)) {
          if (range === null) {
            expect(parts).toEqual([]);
            continue;
          }
          everyShown(lots, parts, (some) => {
            const { sellers, buyers } = businesses(some);
            if (sellers !== 0) expect(Math.min(sellers ?? 0, buyers ?? 0)).toBeGreaterThanOrEqual(fewest);
          });
        }
      }),
    );
  });

  it('stand without what the Board says: whoever takes single lots away is left with enough people', () => {
    const lots = fc.array(fc.tuple(anyOffered, fc.boolean()), { maxLength: 40 });
    fc.assert(
      fc.property(lots, fc.integer({ min: 2, max: 4 }), (drawn, fewest) => {
        const all = drawn.map(([lot, aloud]) => ({ ...lot, aloud }));
        for (const { range, parts } of goodsRanges(all, fewest))
          everyShown(all, range ? parts : [], (some) => {
            const unsaid = businesses(some.filter(({ aloud }) => aloud !== true));
            if (unsaid.sellers !== 0)
              expect(Math.min(unsaid.sellers ?? 0, unsaid.buyers ?? 0)).toBeGreaterThanOrEqual(fewest);
          });
      }),
    );
    expect(
      goodsRanges(
        three({}).map((lot) => ({ ...lot, aloud: true })),
        3,
      ),
    ).toMatchObject([{ range: null }]);
    expect(goodsRanges(three({}), 3)).toMatchObject([{ range: { lots: 3 } }]);
  });

  it('are each the range of their own lots, and together all that was sold', () => {
    fc.assert(
      fc.property(fc.array(anyOffered, { minLength: 1, maxLength: 40 }), (lots) => {
        const check = (within: readonly OfferedLot[], parts: readonly RangePart[]) => {
          for (const part of parts) {
            expect(part.range).toEqual(rangeOf(lotsOf(within, part)));
            check(lotsOf(within, part), part.parts);
          }
          const all = parts.reduce((so, { range }) => so + range.lots, 0);
          if (parts.length > 0) expect(all).toBe(rangeOf(within)?.lots);
        };
        for (const { parts } of goodsRanges(lots, 2)) check(lots, parts);
      }),
    );
  });

  it('merge what is too narrow, and draw the smallest in where the rest is too narrow too', () => {
    const narrow = offered({ size: 'S', seller: 1, buyer: 11, price: 5 });
    const lots = [...three({ size: 'L' }), ...three({ size: 'L' }), ...three({ size: 'M' }), narrow];
    const [raccoon] = goodsRanges(lots);
    const [section] = raccoon?.parts ?? [];
    expect(section).toMatchObject({ level: 'section', value: '' });
    expect(section?.parts.map(({ value, values, range }) => [value, values, range.lots])).toEqual([
      ['L', ['L'], 6],
      [null, ['M', 'S'], 4],
    ]);
  });

  it('are none where everything would go together, and the goods are withheld where they are too narrow', () => {
    expect(goodsRanges([offered({}), offered({ seller: 2, buyer: 11 })])).toEqual([
      { goods: 'raccoon', measure: 'piece', range: null, parts: [] },
    ]);
    expect(goodsRanges([unsoldLot({})])).toEqual([]);
    expect(LEVELS).toEqual(['section', 'size', 'grade', 'form']);
  });

  it('keep goods and measures apart, in order', () => {
    const lots = [
      ...three({ goods: 'muskrat' }),
      ...three({ goods: 'beaver', measure: 'lb' }),
      ...three({ goods: 'beaver' }),
    ];
    expect(goodsRanges(lots).map(({ goods, measure }) => [goods, measure])).toEqual([
      ['beaver', 'lb'],
      ['beaver', 'piece'],
      ['muskrat', 'piece'],
    ]);
  });
});
