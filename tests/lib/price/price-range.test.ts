import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rangeOf, unsoldPercent } from '#lib/price/range.ts';
import { fewInWords, partInWords, rangeInWords } from '#lib/price/words.ts';
import { anyOffered, offered, unsoldLot } from '#tests/support/prices.ts';

describe('a range', () => {
  it('is the range of its pieces however they are lotted', () => {
    fc.assert(
      fc.property(fc.array(anyOffered, { minLength: 1, maxLength: 12 }), (lots) => {
        const apart = lots.flatMap((lot) =>
          lot.priced === null
            ? [lot]
            : Array.from({ length: lot.priced.times }, () => offered({ ...lot, price: lot.priced?.priceCents ?? 0 })),
        );
        const together = rangeOf(lots);
        const single = rangeOf(apart);
        expect(together && { ...together, lots: 0 }).toEqual(single && { ...single, lots: 0 });
      }),
    );
  });

  it('says who stands behind it and what found no buyer', () => {
    const lots = [offered({ seller: 1, buyer: 7 }), offered({ seller: 2, buyer: 7 }), unsoldLot({ seller: 3 })];
    const range = rangeOf(lots);
    expect(range).toMatchObject({ lots: 2, unsold: 1, sellers: 2, buyers: 1, few: true });
    expect(range && unsoldPercent(range)).toBe(33);
    expect(rangeOf([unsoldLot({})])).toBeNull();
  });

  // Hyndman & Fan (1996), type 7, of 1 to 10: quartiles 3.25, 5.5 and 7.75; worked by hand from their definition.
  it('has the quartiles of type 7', () => {
    const range = rangeOf(Array.from({ length: 10 }, (_, at) => offered({ price: 100 * (at + 1) })));
    expect(range).toMatchObject({ lowCents: 100, p25Cents: 325, medianCents: 550, p75Cents: 775, highCents: 1000 });
  });
});

describe('a range in words', () => {
  const named = { name: 'Raccoon', season: '2025-26' };

  it('begins with what goods brought', () => {
    const range = rangeOf([offered({ price: 350, pieces: 10 }), offered({ price: 1400, pieces: 10 })]);
    expect(range && rangeInWords(named, range)).toBe(
      'Raccoon brought 3.50 to 14.00 in season 2025-26; half of them between 3.50 and 14.00 (20 pieces, 2 lots).',
    );
    expect(range && fewInWords(range)).toBe('');
  });

  it('says that few are few', () => {
    const range = rangeOf([offered({ price: 350, pieces: 1 })]);
    expect(range && rangeInWords(named, range)).toBe('Raccoon brought 3.50 in season 2025-26 (1 piece, 1 lot).');
    expect(range && fewInWords(range)).toBe('Only 1 piece: too few to say much.');
  });

  it('names a part by its value, or by the values that went together', () => {
    expect(partInWords({ level: 'size', value: 'L', values: ['L'] })).toBe('size L');
    expect(partInWords({ level: 'grade', value: '', values: [''] })).toBe('no grade named');
    expect(partInWords({ level: 'size', value: null, values: ['', 'S'] })).toBe('other sizes together: none named, S');
  });
});
