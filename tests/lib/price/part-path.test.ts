import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { goodsRanges, LEVELS, type RangePart } from '#lib/price/parts.ts';
import { type OfferedLot, rangeOf } from '#lib/price/range.ts';
import { type PartPath, partAt, pathInWords } from '#lib/price/words.ts';
import { anyOffered, offered } from '#tests/support/prices.ts';

/** Every part that stands alone down to the top, with the values that lead to it. */
function paths(parts: readonly RangePart[], above: PartPath = {}): [PartPath, RangePart][] {
  return parts.flatMap((part) => {
    if (part.value === null) return [];
    const path = { ...above, [part.level]: part.value };
    return [[path, part] as [PartPath, RangePart], ...paths(part.parts, path)];
  });
}

const has = (lot: OfferedLot, path: PartPath) => LEVELS.every((level) => (path[level] ?? lot[level]) === lot[level]);

describe('a part named by its values', () => {
  it('is found by them, and its range is that of all lots with these values and of no others', () => {
    fc.assert(
      fc.property(fc.array(anyOffered, { minLength: 1, maxLength: 40 }), (lots) => {
        for (const { parts } of goodsRanges(lots, 1)) {
          for (const [path, part] of paths(parts)) {
            expect(partAt(parts, path)).toBe(part);
            expect(part.range).toEqual(rangeOf(lots.filter((lot) => has(lot, path))));
          }
        }
      }),
      { numRuns: 40 },
    );
  });

  it('is found without the levels at which all lots are alike, and never where values went together', () => {
    const lots = ['L', 'M'].flatMap((size) => [1, 2, 3].map((seller) => offered({ size, seller, buyer: 10 + seller })));
    const [{ parts } = { parts: [] }] = goodsRanges([...lots, offered({ size: 'S' })]);
    const medium = partAt(parts, { size: 'M' });
    expect(medium?.range.lots).toBe(3);
    expect(partAt(parts, { section: '', size: 'M' })).toBe(medium);
    expect(parts[0]?.parts.map(({ values }) => values)).toEqual([['M'], ['L', 'S']]);
    for (const size of ['L', 'S']) expect(partAt(parts, { size })).toBeNull();
  });

  it('is none where nothing is named, something is named that is not there, or only part of the way', () => {
    const lots = ['east', 'west'].flatMap((section) => [offered({ section }), offered({ section, size: 'L' })]);
    const [{ parts } = { parts: [] }] = goodsRanges(lots, 1);
    for (const path of [{}, { section: 'north' }, { size: 'L' }, { section: 'east', grade: 'I' }]) {
      expect(partAt(parts, path)).toBeNull();
    }
  });

  it('is said by its values, from the section down', () => {
    expect(pathInWords({ form: 'green', size: 'L', section: '' })).toBe('no section named, size L, green');
  });
});
