import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareCodePoints } from '#lib/result/text.ts';
import { expandTags, tagRanges } from '#lib/tag/list.ts';

const intact = (tag: string) => ({ tag, condition: 'intact' as const });
const WY = 'US-CITES WY BOB 2025';

describe('the tags of a lot on paper', () => {
  it('run together where their numbers do', () => {
    const tags = ['000103', '000101', '000102', '000105'].map((serial) => intact(`${WY} ${serial}`));
    expect(tagRanges(tags)).toEqual([`${WY} 000101 to 000103`, `${WY} 000105`]);
  });

  it('do not run from one species, year or length of number into another', () => {
    const tags = [`${WY} 99`, `${WY} 100`, 'US-CITES WY OTT 2025 101', 'US-CITES WY OTT 2026 102'].map(intact);
    expect(tagRanges(tags)).toHaveLength(4);
    // The next number, but in fewer digits: read back as a range it would be 0099 to 0100.
    expect(tagRanges([`${WY} 0099`, `${WY} 100`].map(intact))).toEqual([`${WY} 0099`, `${WY} 100`]);
  });

  it('stand alone where the number ends with a letter', () => {
    const tags = [`${WY} 12A`, `${WY} 12A1`, `${WY} 12B`];
    expect(tagRanges(tags.map(intact))).toEqual(tags);
  });

  it('say what is the matter with one', () => {
    const tags = [
      intact(`${WY} 000101`),
      { tag: `${WY} 000102`, condition: 'broken' as const },
      { tag: 'US-CITES FWS-REPL 001234', condition: 'replacement' as const },
    ];
    expect(tagRanges(tags)).toEqual([
      `${WY} 000101`,
      `${WY} 000102 (broken, to be replaced before export)`,
      'US-CITES FWS-REPL 001234 (replacement)',
    ]);
  });

  it('are read back by the check-in table as the same tags', () => {
    const serial = fc.integer({ min: 1000, max: 1040 }).map((number) => String(number).padStart(6, '0'));
    const head = fc.constantFrom(
      'US-CITES WY BOB 2025',
      'US-CITES WY BOB',
      'US-CITES MT OTT 2024',
      'US-CITES FWS-REPL',
    );
    const lettered = fc.tuple(head, fc.constantFrom('', 'A'), serial).map(([a, b, c]) => `${a} ${b}${c}`);
    fc.assert(
      fc.property(fc.uniqueArray(lettered, { minLength: 1, maxLength: 60 }), (tags) => {
        const read = expandTags(tagRanges(tags.map(intact)).join(', '));
        expect(read.ok && read.value.map(({ canonical }) => canonical)).toEqual([...tags].sort(compareCodePoints));
      }),
    );
  });
});
