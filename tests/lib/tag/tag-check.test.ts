import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TagCondition } from '#lib/sale/facts.ts';
import { decideTags, decideTagUse, type LotTag, type TagCheck } from '#lib/tag/check.ts';
import { goods } from '#tests/support/facts.ts';

const bobcat = goods('bobcat', { name: 'Bobcat', exportTag: true, tagSpeciesCode: 'BOB' });
const tag = (serial: string, condition: TagCondition = 'intact', head = 'US-CITES WY BOB 2025'): LotTag => ({
  tag: `${head} ${serial}`,
  condition,
});
const check = (over: Partial<TagCheck> = {}): TagCheck => ({
  goods: bobcat,
  lot: { lotNo: '12', count: 3 },
  tags: [tag('000101'), tag('000102'), tag('000103')],
  regions: ['US-WY'],
  pieceCountRequired: true,
  ...over,
});
const codes = (over: Partial<TagCheck>) => decideTags(check(over)).map(({ code }) => code);

describe('decideTags', () => {
  it('finds nothing on a lot with one good tag a piece', () => {
    expect(decideTags(check())).toEqual([]);
  });

  it('says how many are missing', () => {
    expect(decideTags(check({ tags: [tag('000101'), tag('000102')] }))).toEqual([
      {
        code: 'tag_missing',
        tag: null,
        message:
          "Lot 12 has 3 pieces and 2 good export tags: have the agency's officer attach 1 more, then enter its number.",
      },
    ]);
    const [none] = decideTags(check({ lot: { count: 2 }, tags: [] }));
    expect(none?.message).toBe(
      "This lot has 2 pieces and 0 good export tags: have the agency's officer attach 2 more, then enter their numbers.",
    );
  });

  it('says how many are too many', () => {
    const [fault] = decideTags(check({ lot: { lotNo: '12', count: 1 }, tags: [tag('000101'), tag('000102')] }));
    expect(fault).toMatchObject({ code: 'tag_extra', tag: null });
    expect(fault?.message).toBe(
      'Lot 12 has 1 piece and 2 good export tags: count the pieces again, or take off 1 that is not on a piece.',
    );
    expect(decideTags(check({ lot: { count: 1 } }))[0]?.message).toBe(
      'This lot has 1 piece and 3 good export tags: count the pieces again, or take off 2 that are not on a piece.',
    );
  });

  it('finds a tag entered twice, which then stands for one piece only', () => {
    const faults = decideTags(check({ tags: [tag('000101'), tag('000101'), tag('000102')] }));
    expect(faults.map(({ code }) => code)).toEqual(['tag_doubled', 'tag_missing']);
    expect(faults[0]).toMatchObject({ tag: 'US-CITES WY BOB 2025 000101', message: expect.stringContaining('twice') });
  });

  it('does not take a broken tag until it is replaced', () => {
    const broken = [tag('000101'), tag('000102'), tag('000103', 'broken')];
    expect(decideTags(check({ tags: broken }))).toMatchObject([
      { code: 'tag_broken', tag: 'US-CITES WY BOB 2025 000103', message: expect.stringContaining('replace it') },
    ]);
    const replaced = [...broken, tag('001234', 'replacement', 'US-CITES FWS-REPL')];
    expect(codes({ tags: replaced })).toEqual([]);
    const [, missing] = decideTags(check({ tags: [tag('000101'), tag('000103', 'broken')] }));
    expect(missing).toEqual({
      code: 'tag_missing',
      tag: null,
      message:
        "Lot 12 has 3 pieces and 1 good export tag and 1 broken: have the agency's officer attach 1 more, then enter its number.",
    });
  });

  it('names no more broken tags than pieces are without a good one', () => {
    const two = [tag('000108', 'broken'), tag('000109', 'broken')];
    // Three pieces, two of them with a good tag: one of the broken tags was replaced, and one is still to be.
    expect(decideTags(check({ tags: [tag('000101'), tag('000102'), ...two] }))).toMatchObject([
      { code: 'tag_broken', tag: 'US-CITES WY BOB 2025 000108' },
    ]);
    expect(codes({ lot: { count: 1 }, tags: [tag('000101'), tag('000102'), ...two] })).toEqual(['tag_extra']);
  });

  it('takes a federal replacement tag, which shows neither State nor species', () => {
    const tags = [tag('000101'), tag('000102'), tag('001234', 'replacement', 'US-CITES FWS-REPL')];
    expect(codes({ tags })).toEqual([]);
  });

  it('finds a tag of another species, and does not look where the goods have no code', () => {
    const tags = [tag('000101'), tag('000102'), tag('000103', 'intact', 'US-CITES WY OTT 2025')];
    expect(decideTags(check({ tags }))).toMatchObject([
      {
        code: 'tag_other_species',
        tag: 'US-CITES WY OTT 2025 000103',
        message: expect.stringContaining('OTT, not BOB'),
      },
    ]);
    expect(codes({ tags, goods: { ...bobcat, tagSpeciesCode: '' } })).toEqual([]);
    expect(
      codes({ tags: [tag('000101'), tag('000102'), tag('000103')], goods: { ...bobcat, tagSpeciesCode: 'bob' } }),
    ).toEqual([]);
  });

  it('finds a tag of another State, and does not look where none is known', () => {
    const tags = [tag('000101'), tag('000102'), tag('000103', 'intact', 'US-CITES MT BOB 2025')];
    expect(decideTags(check({ tags }))).toMatchObject([
      { code: 'tag_other_state', message: expect.stringContaining('may bear tags of WY') },
    ]);
    expect(codes({ tags, regions: ['US-WY', 'US-MT'] })).toEqual([]);
    expect(codes({ tags, regions: [] })).toEqual([]);
  });

  it('finds a tag on goods that take none', () => {
    const raccoon = goods('raccoon', { name: 'Raccoon' });
    expect(codes({ goods: raccoon, tags: [] })).toEqual([]);
    expect(decideTags(check({ goods: raccoon, tags: [tag('000101')] }))).toMatchObject([
      { code: 'tag_not_taken', message: expect.stringContaining('takes no export tag') },
    ]);
  });

  it('finds a text that is no tag, and a tagged lot without a count', () => {
    expect(codes({ tags: [tag('000101'), tag('000102'), { tag: '000103', condition: 'intact' }] })).toEqual([
      'tag_unreadable',
    ]);
    expect(codes({ lot: { count: null } })).toEqual(['count_missing']);
    expect(codes({ lot: { count: null }, pieceCountRequired: false })).toEqual([]);
  });

  it('finds nothing only when there are as many good tags as pieces', () => {
    const anyTags = fc.array(
      fc.record({
        serial: fc.integer({ min: 100, max: 106 }),
        condition: fc.constantFrom('intact', 'broken', 'replacement'),
      }),
      { maxLength: 7 },
    );
    fc.assert(
      fc.property(anyTags, fc.integer({ min: 1, max: 5 }), (found, count) => {
        const tags = found.map(({ serial, condition }) => tag(String(serial), condition as TagCondition));
        const good = new Set(tags.filter(({ condition }) => condition !== 'broken').map((one) => one.tag));
        const faults = decideTags(check({ tags, lot: { count } }));
        if (faults.length === 0) expect(good.size).toBe(count);
        for (const { message } of faults) expect(message).toMatch(/^This lot.*\.$/);
      }),
    );
  });
});

describe('a tag that is in the book already', () => {
  const use = { tag: 'US-CITES WY BOB 2025 000101', lotNo: '7', saleName: 'Early Sale', sellerNo: 4 };

  it('comes back with a piece that went home unsold from another sale, and from nowhere else', () => {
    expect(decideTagUse({ ...use, wentHome: true, sameSale: false })).toEqual({ ok: true, value: 'came_back' });
    expect(decideTagUse({ ...use, wentHome: false, sameSale: false })).toMatchObject({
      code: 'taken',
      message: expect.stringContaining('on lot 7 of Early Sale (seller number 4)'),
    });
    // A lot that was passed may stand beside the new one in the sale at hand.
    for (const wentHome of [true, false]) {
      expect(decideTagUse({ ...use, wentHome, sameSale: true })).toMatchObject({
        code: 'taken',
        message: expect.stringContaining('on lot 7 (seller number 4)'),
      });
    }
  });
});
