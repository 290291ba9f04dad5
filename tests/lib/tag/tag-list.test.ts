import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expandTags, MOST_TAGS } from '#lib/tag/list.ts';

function spelled(text: string): string[] {
  const read = expandTags(text);
  if (!read.ok) throw new Error(read.message);
  return read.value.map(({ canonical }) => canonical);
}

const HEAD = 'US-CITES WY BOB 2025';
const THREE = [`${HEAD} 000099`, `${HEAD} 000100`, `${HEAD} 000101`];

describe('expandTags', () => {
  it.each([
    `${HEAD} 000099-000101`,
    `${HEAD} 000099 - 000101`,
    `${HEAD} 000099 to 000101`,
    `${HEAD} 000099 TO 000101`,
    `${HEAD} 000099\u2013000101`,
    `${HEAD} 000099 \u2014 000101`,
    `${HEAD} 000099-101`,
    `us-cites-wy-bob-2025-000099-000101`,
    `${HEAD} 000099 to ${HEAD} 000101`,
    `${HEAD} 000099, ${HEAD} 000100; ${HEAD} 000101`,
    `${HEAD} 000099\r\n${HEAD} 000100\n\n${HEAD} 000101\n`,
    `${HEAD} 000099, 000100, 000101,`,
    `${HEAD} 000099; 000100-000101`,
    `${HEAD} 000099; 000100 - 000101`,
    `${HEAD} 000099; 000100 to 000101`,
  ])('reads %j as three tags', (text) => {
    expect(spelled(text)).toEqual(THREE);
  });

  it('takes a long number behind a year for a serial, because a range would be too large for a lot', () => {
    expect(spelled('US-CITES WY BOB 2025-123456')).toEqual(['US-CITES WY BOB 2025 123456']);
    expect(expandTags('US-CITES WY BOB 2025-2040')).toMatchObject({ ok: false, code: 'needs_answer' });
  });

  it('keeps letters in front of the number, and grows a number without leading zeros', () => {
    expect(spelled('US-CITES WY BOB A098-A101')).toHaveLength(4);
    expect(spelled('US-CITES WY BOB A098-A101').at(-1)).toBe('US-CITES WY BOB A101');
    expect(spelled('US-CITES WY BOB A098, A099; A100-A101')).toEqual(spelled('US-CITES WY BOB A098-A101'));
    expect(spelled('US-CITES WY BOB 998 to 1001').at(-1)).toBe('US-CITES WY BOB 1001');
    expect(spelled('US-CITES FWS-REPL 001234-001235')).toEqual([
      'US-CITES FWS-REPL 001234',
      'US-CITES FWS-REPL 001235',
    ]);
  });

  it('takes hyphens between the words of one tag for what they are', () => {
    expect(spelled('US-CITES-WY-BOB-2025-000101')).toEqual([`${HEAD} 000101`]);
    expect(spelled('US-CITES WY BOB 2025-000101')).toEqual([`${HEAD} 000101`]);
    // More leading zeros behind the hyphen than before it are no range, though the number is the higher.
    expect(spelled('US-CITES WY BOB 2025-002040')).toEqual([`${HEAD} 002040`]);
    expect(spelled('US-CITES WY BOB 2025-002041')).toEqual([`${HEAD} 002041`]);
    // Nor does a range run down from the year to the number.
    expect(spelled('US-CITES WY BOB 2025-101')).toEqual([`${HEAD} 101`]);
  });

  it('asks when a hyphen may be either', () => {
    expect(expandTags('US-CITES WY BOB 2025-2040')).toMatchObject({ ok: false, code: 'needs_answer' });
    // One tag with the number 2025 and no year, or number 2025 of the year 2025.
    expect(expandTags('US-CITES WY BOB 2025-2025')).toMatchObject({ ok: false, code: 'needs_answer' });
    expect(spelled('US-CITES WY BOB 2025 to 2027')).toHaveLength(3);
    expect(spelled('US-CITES WY BOB 2025 to 2025')).toEqual(['US-CITES WY BOB 2025']);
  });

  it.each([
    ['', 'missing', 'Enter the numbers'],
    [' , ;\n', 'missing', 'Enter the numbers'],
    [`${HEAD} 000118-000101`, 'malformed', 'lower number first'],
    [`${HEAD} 000118 to 000101`, 'malformed', 'lower number first'],
    [`${HEAD} A098-B101`, 'malformed', 'one by one'],
    [`${HEAD} 000001-000501`, 'too_large', 'at most 500'],
    [`${HEAD} 000001 to 999999999999`, 'too_large', 'at most 500'],
    [`${HEAD} 000001-000300, 001001-001300`, 'too_large', 'at most 500'],
    ['000101', 'malformed', 'Begin with US-CITES'],
    [`${HEAD} 000101 000102`, 'malformed', "tag's own number"],
    // What is wrong with each tag of a range is said before what is wrong with the range.
    ['WY BOB 2025 000118-000101', 'malformed', 'Begin with US-CITES'],
    // The numbers after the first grow beyond the twelve digits of a tag.
    [`${HEAD} 999999999998 to 1000000000001`, 'malformed', "tag's own number"],
    // Words before or behind a range are not passed over: they may be what matters.
    [`Lot 5: ${HEAD} 000099 to ${HEAD} 000101`, 'malformed', 'Begin with US-CITES'],
    [`${HEAD} 000099 to 000101 without 000100`, 'malformed', "tag's own number"],
    // A year and a number are no number alone.
    ['US-CITES WY BOB 000101, 2026 000102', 'malformed', 'Begin with US-CITES'],
    [`${HEAD} 000101, nonsense`, 'malformed', 'Begin with US-CITES'],
    [`${HEAD} ${'1'.repeat(200)}`, 'too_large', 'Part the tags'],
  ])('refuses %j', (text, code, sentence) => {
    expect(expandTags(text)).toMatchObject({ ok: false, code, message: expect.stringContaining(sentence) });
  });

  it('takes exactly 500, in one range or in several', () => {
    expect(spelled(`${HEAD} 000001-000500`)).toHaveLength(500);
    expect(spelled(`${HEAD} 000001-000300, 001001-001200`)).toHaveLength(500);
    expect(expandTags(`${HEAD} 000001-000300, 001001-001201`)).toMatchObject({ ok: false, code: 'too_large' });
  });

  it('gives every number of a range once, in order, with its zeros', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999_000 }), fc.integer({ min: 0, max: MOST_TAGS - 1 }), (start, more) => {
        const text = (n: number) => String(n).padStart(6, '0');
        const found = spelled(`${HEAD} ${text(start)}-${text(start + more)}`);
        expect(found).toEqual(Array.from({ length: more + 1 }, (_, at) => `${HEAD} ${text(start + at)}`));
      }),
      { numRuns: 50 },
    );
  });
});
