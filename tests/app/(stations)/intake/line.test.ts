/** The keyboard path of a lot's line, over goods with and without whatever may be absent. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  carriedFrom,
  EMPTY_LINE,
  isDrawn,
  LINE_FIELDS,
  type Line,
  type LineField,
  lotInput,
  stopAfter,
  stopsOf,
} from '#app/(stations)/intake/line.ts';
import type { GoodsChoice } from '#db/sale/goods.ts';
import { BYS } from '#lib/lot/fields.ts';
import { seasonTags } from '#lib/tag/head.ts';

const SEASON = seasonTags({ region: 'US-WY', tagSpeciesCode: 'BOB', season: '2025-26', heads: [] });

const anyWords = fc.constantFrom<string[]>([], ['I', 'II']);
const anyGoods: fc.Arbitrary<GoodsChoice> = fc
  .record({ by: fc.constantFrom(...BYS), exportTag: fc.boolean(), sizes: anyWords, grades: anyWords })
  .map((drawn) => ({
    ...{ goods: 'fur', name: 'Fur', seasonLimit: null, caution: '', brought: { piece: '', lot: '', lb: '', oz: '' } },
    ...drawn,
    seasonTags: drawn.exportTag ? SEASON : null,
  }));

const typed = (text: string) => fc.constantFrom('', text);
/** Every field may be filled or empty, also one that was filled for goods that were chosen before. */
const anyLine: fc.Arbitrary<Line> = fc
  .record({
    ...{ by: fc.constantFrom('' as const, ...BYS), count: typed('2'), weight: typed('3.5'), size: typed('II') },
    ...{
      grade: typed('I'),
      section: typed('East'),
      minimum: typed('4.00'),
      note: typed('Torn'),
      takenIn: typed('US-MT'),
    },
    ...{ tags: typed('US-CITES WY BOB 2026 000101'), form: fc.constantFrom('put_up' as const, 'green' as const) },
    ...{ withoutReserve: fc.boolean(), donated: fc.boolean() },
  })
  .map((drawn) => ({ ...EMPTY_LINE, goods: 'fur', goodsText: 'Fur', ...drawn }));
const anyField = fc.constantFrom<LineField>(...LINE_FIELDS);

describe('Enter in the line of a lot', () => {
  it('goes from every field that is drawn to a later one that is drawn, or saves; it never goes back', () => {
    fc.assert(
      fc.property(anyLine, anyGoods, anyField, (line, goods, from) => {
        fc.pre(isDrawn(from, line, goods));
        const to = stopAfter(from, line, goods);
        if (to === undefined) return;
        expect(LINE_FIELDS.indexOf(to)).toBeGreaterThan(LINE_FIELDS.indexOf(from));
        expect(isDrawn(to, line, goods)).toBe(true);
      }),
    );
  });

  it('passes by no later field that the line needs', () => {
    fc.assert(
      fc.property(anyLine, anyGoods, anyField, (line, goods, from) => {
        const later = stopsOf(line, goods).filter((stop) => LINE_FIELDS.indexOf(stop) > LINE_FIELDS.indexOf(from));
        expect(stopAfter(from, line, goods)).toBe(later[0]);
      }),
    );
  });
});

describe('what is sent of a line', () => {
  it('is what is drawn: no weight of goods by count, and no tag of goods without tags', () => {
    fc.assert(
      fc.property(anyLine, anyGoods, (line, goods) => {
        const input = lotInput(line, goods);
        if (!input.ok) throw new Error(input.message);
        const { weight, tags, ...rest } = input.value;
        expect(weight).toBe(isDrawn('weight', line, goods) ? line.weight : '');
        expect(tags).toHaveLength(isDrawn('tags', line, goods) && line.tags !== '' ? 1 : 0);
        const { goodsText, broken, weight: _weight, tags: _tags, by, ...said } = line;
        expect(rest).toEqual({ ...said, by: by === '' ? null : by });
      }),
    );
  });

  it('is nothing without goods: a word that is not on the list is said, with who can add it', () => {
    const nutria = lotInput({ ...EMPTY_LINE, goodsText: 'nutria', count: '2', tags: 'x' }, undefined);
    expect(nutria).toMatchObject({ code: 'unknown', field: 'goods' });
    expect(nutria.ok ? '' : nutria.message).toMatch(/“nutria” is not on this sale’s list\..*have the office add it/);
    expect(lotInput(EMPTY_LINE, undefined)).toMatchObject({ code: 'missing', field: 'goods' });
  });

  it('leaves to the next line only where the furs come from and how they are put up', () => {
    fc.assert(
      fc.property(anyLine, (line) => {
        const { section, form, takenIn } = line;
        expect(carriedFrom(line)).toEqual({ ...EMPTY_LINE, section, form, takenIn });
      }),
    );
  });
});
