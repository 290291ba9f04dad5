/** The keyboard path of a lot's row, over goods with and without whatever may be absent. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  carriedFrom,
  EMPTY_ROW,
  type IntakeRow,
  isDrawn,
  lotInput,
  ROW_FIELDS,
  type RowField,
  stopAfter,
  stopsOf,
} from '#app/(stations)/intake/row.ts';
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
const anyRow: fc.Arbitrary<IntakeRow> = fc
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
  .map((drawn) => ({ ...EMPTY_ROW, goods: 'fur', goodsText: 'Fur', ...drawn }));
const anyField = fc.constantFrom<RowField>(...ROW_FIELDS);

describe('Enter in the row of a lot', () => {
  it('goes from every field that is drawn to a later one that is drawn, or saves; it never goes back', () => {
    fc.assert(
      fc.property(anyRow, anyGoods, anyField, (row, goods, from) => {
        fc.pre(isDrawn(from, row, goods));
        const to = stopAfter(from, row, goods);
        if (to === undefined) return;
        expect(ROW_FIELDS.indexOf(to)).toBeGreaterThan(ROW_FIELDS.indexOf(from));
        expect(isDrawn(to, row, goods)).toBe(true);
      }),
    );
  });

  it('passes by no later field that the row needs', () => {
    fc.assert(
      fc.property(anyRow, anyGoods, anyField, (row, goods, from) => {
        const later = stopsOf(row, goods).filter((stop) => ROW_FIELDS.indexOf(stop) > ROW_FIELDS.indexOf(from));
        expect(stopAfter(from, row, goods)).toBe(later[0]);
      }),
    );
  });
});

describe('what is sent of a row', () => {
  it('is what is drawn: no weight of goods by count, and no tag of goods without tags', () => {
    fc.assert(
      fc.property(anyRow, anyGoods, (row, goods) => {
        const input = lotInput(row, goods);
        if (!input.ok) throw new Error(input.message);
        const { weight, tags, ...rest } = input.value;
        expect(weight).toBe(isDrawn('weight', row, goods) ? row.weight : '');
        expect(tags).toHaveLength(isDrawn('tags', row, goods) && row.tags !== '' ? 1 : 0);
        const { goodsText, broken, weight: _weight, tags: _tags, by, ...said } = row;
        expect(rest).toEqual({ ...said, by: by === '' ? null : by });
      }),
    );
  });

  it('is nothing without goods: a word that is not on the list is said, with who can add it', () => {
    const nutria = lotInput({ ...EMPTY_ROW, goodsText: 'nutria', count: '2', tags: 'x' }, undefined);
    expect(nutria).toMatchObject({ code: 'unknown', field: 'goods' });
    expect(nutria.ok ? '' : nutria.message).toMatch(/“nutria” is not on this sale’s list\..*have the office add it/);
    expect(lotInput(EMPTY_ROW, undefined)).toMatchObject({ code: 'missing', field: 'goods' });
  });

  it('leaves to the next row only where the furs come from and how they are put up', () => {
    fc.assert(
      fc.property(anyRow, (row) => {
        const { section, form, takenIn } = row;
        expect(carriedFrom(row)).toEqual({ ...EMPTY_ROW, section, form, takenIn });
      }),
    );
  });
});
