import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pageOf, partiesFound } from '#lib/result/search.ts';

describe('a long list', () => {
  it('is all of it, page by page, in its order', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(), { maxLength: 40 }), fc.integer({ min: 1, max: 7 }), (rows, most) => {
        const { pages } = pageOf(rows, undefined, most);
        const all = Array.from({ length: pages }, (_, at) => pageOf(rows, String(at + 1), most));
        expect(all.flatMap((page) => page.rows)).toEqual(rows);
        for (const { first, last, rows: shown } of all) expect(shown).toEqual(rows.slice(Math.max(0, first - 1), last));
      }),
      { numRuns: 50 },
    );
  });

  it('is at its beginning for a word that is no page, and at its end beyond it', () => {
    const rows = [1, 2, 3, 4, 5];
    for (const word of [undefined, '', '0', '-1', 'x', '1.5']) expect(pageOf(rows, word, 2).page).toBe(1);
    expect(pageOf(rows, '99', 2)).toEqual({ rows: [5], page: 3, pages: 3, first: 5, last: 5, all: 5 });
    expect(pageOf([], '2', 2)).toEqual({ rows: [], page: 1, pages: 1, first: 0, last: 0, all: 0 });
  });
});

describe('finding a party', () => {
  const rows = [
    { no: 7, name: 'Ada Birch' },
    { no: 17, name: 'Zoë Łęcka' },
    { no: 77, name: 'Bea Cole 17' },
  ];
  const found = (typed: string) =>
    partiesFound(rows, typed, ({ no, name }) => ({ number: no, names: [name] })).map(({ no }) => no);

  it('goes by the number, else by any part of the name as somebody in a hurry types it', () => {
    expect(found('')).toEqual([7, 17, 77]);
    expect(found('017')).toEqual([17]);
    expect(found('lecka zoe')).toEqual([17]);
    expect(found('b')).toEqual([7, 77]);
    expect(found('18')).toEqual([]);
    expect(found('cole 17')).toEqual([77]);
  });
});
