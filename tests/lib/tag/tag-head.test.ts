import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { askTagYear, seasonTags, seasonYears, tagHead, withTagHead } from '#lib/tag/head.ts';
import { expandTags } from '#lib/tag/list.ts';

const wyoming = (heads: readonly string[], season = '2025-26') =>
  seasonTags({ region: 'US-WY', tagSpeciesCode: 'BOB', season, heads });

describe('what stands before the number of a tag', () => {
  it.each([
    ['no tag yet: no year is made up', [], 'US-CITES WY BOB'],
    ['as on this season’s tags', ['US-CITES WY BOB 2025 '], 'US-CITES WY BOB 2025'],
    ['tags without a year: none is offered', ['US-CITES WY BOB '], 'US-CITES WY BOB'],
    ['a year of another season says nothing', ['US-CITES WY BOB 2024 '], 'US-CITES WY BOB'],
    ['nor is the year then in doubt', ['US-CITES WY BOB 2024 ', 'US-CITES WY BOB 2026 '], 'US-CITES WY BOB 2026'],
    [
      'both years of a season: neither is guessed',
      ['US-CITES WY BOB 2025 ', 'US-CITES WY BOB 2026 '],
      'US-CITES WY BOB',
    ],
    [
      'some with a year and some without: none is offered',
      ['US-CITES WY BOB ', 'US-CITES WY BOB 2025 '],
      'US-CITES WY BOB',
    ],
    ['in whichever order', ['US-CITES WY BOB 2025 ', 'US-CITES WY BOB '], 'US-CITES WY BOB'],
    ['another State’s tag says nothing', ['US-CITES MT BOB 2025 '], 'US-CITES WY BOB'],
    ['another species says nothing', ['US-CITES WY OTT 2025 '], 'US-CITES WY BOB'],
    ['a replacement tag says nothing', ['US-CITES FWS-REPL '], 'US-CITES WY BOB'],
  ])('%s', (_, heads, head) => {
    expect(tagHead(wyoming(heads))).toBe(head);
  });

  it('is that of the State where the piece was taken', () => {
    const season = wyoming(['US-CITES WY BOB 2026 ', 'US-CITES MT BOB 2025 ']);
    expect(tagHead(season, 'US-MT')).toBe('US-CITES MT BOB 2025');
    expect(tagHead(season, 'US-CO')).toBe('US-CITES CO BOB');
    // The place is typed, and blanks are no place.
    expect(tagHead(season, ' US-MT ')).toBe('US-CITES MT BOB 2025');
    expect(tagHead(season, '  ')).toBe('US-CITES WY BOB 2026');
  });

  it('has whatever year the tags show where the season’s name says none', () => {
    expect(tagHead(wyoming(['US-CITES WY BOB 1998 '], 'this winter'))).toBe('US-CITES WY BOB 1998');
  });

  it('is nothing for goods without a code', () => {
    expect(tagHead(seasonTags({ region: 'US-WY', tagSpeciesCode: '', season: '2025-26', heads: [] }))).toBe('');
  });

  it.each([
    ['000101', 'US-CITES WY BOB 2025 000101'],
    [' 000101-103', 'US-CITES WY BOB 2025 000101-103'],
    ['2026 000101', 'US-CITES WY BOB 2026 000101'],
    [' 2026  000101', 'US-CITES WY BOB 2026  000101'],
    ['A00101', 'US-CITES WY BOB 2025 A00101'],
    ['2026 A00101', 'US-CITES WY BOB 2026 A00101'],
    // The year of the second tag says nothing of the first.
    ['000101, US-CITES WY BOB 2026 000102', 'US-CITES WY BOB 2025 000101, US-CITES WY BOB 2026 000102'],
    ['us-cites wy bob 000101', 'us-cites wy bob 000101'],
  ])('%s', (typed, whole) => {
    expect(withTagHead(typed, 'US-CITES WY BOB 2025')).toBe(whole);
  });

  it('leaves a number alone where the goods have no head', () => {
    expect(withTagHead('000101', '')).toBe('000101');
  });

  it('makes a range of numbers alone the same tags as the range written out', () => {
    const short = expandTags(withTagHead('000101-103', 'US-CITES WY BOB 2025'));
    expect(short).toEqual(
      expandTags('US-CITES WY BOB 2025 000101, US-CITES WY BOB 2025 000102, US-CITES WY BOB 2025 000103'),
    );
  });
});

describe('the years that a season’s tags may show', () => {
  it.each([
    ['2025-26', ['2025', '2026']],
    ['2025/2026', ['2025', '2026']],
    ['Season 2025–26', ['2025', '2026']],
    ['2025 - 2026, winter', ['2025', '2026']],
    ['1999-00', ['1999', '2000']],
    // Some name a season by the year in which it ends, others by the one in which it begins: common practice, no source.
    ['2026', ['2025', '2026', '2027']],
    ['Winter of 2026, the late sale', ['2025', '2026', '2027']],
    ['2025-27', []],
    // Which of several numbers is the year is not guessed.
    ['Sale 3, 2025-26', []],
    ['2025-26, sale 3', []],
    ['Sale 3 of 2026', []],
    ['2026, sale 3', []],
    ['this winter', []],
  ])('%s', (season, years) => {
    expect(seasonYears(season)).toEqual(years);
  });
});

describe('a question about the year of a tag', () => {
  const asks = (heads: readonly string[], tags: readonly string[], season = '2025-26') =>
    askTagYear({ season: wyoming(heads, season), takenIn: '', tags })?.message ?? null;
  const of2026 = ['US-CITES WY BOB 2026 '];

  it('is asked of a tag of another season, and names the whole number and this season’s years', () => {
    expect(asks(of2026, ['US-CITES WY BOB 2024 000777'])).toBe(
      'Tag US-CITES WY BOB 2024 000777 shows the year 2024, but this season’s tags are from 2026. Is it as on the tag?',
    );
    expect(asks([], ['US-CITES WY BOB 2024 000777', 'US-CITES WY BOB 2024 000778'])).toMatch(
      /000777 and 1 more show the year 2024, but this season’s tags are from 2025 or 2026\./,
    );
  });

  it('names all three years that a season of one year may have', () => {
    expect(asks([], ['US-CITES WY BOB 2024 000777'], '2026')).toContain('are from 2025, 2026 or 2027.');
  });

  it('is asked of a tag without a year only where this season’s tags show one', () => {
    const bare = ['US-CITES WY BOB 000777'];
    expect(asks(of2026, bare)).toMatch(
      /000777 shows no year, but this season’s tags are from 2026: type 2026 000777\./,
    );
    expect(asks(['US-CITES WY BOB '], bare)).toBeNull();
    expect(asks([], bare)).toBeNull();
  });

  it('is never asked of either year of the season, of a replacement, nor of a season that names no year', () => {
    expect(asks(of2026, ['US-CITES WY BOB 2025 000777', 'US-CITES WY BOB 2026 000778'])).toBeNull();
    expect(asks(of2026, ['US-CITES FWS-REPL 001234'])).toBeNull();
    expect(asks([], ['US-CITES WY BOB 1990 000777'], 'this winter')).toBeNull();
  });

  it('is never asked of a number alone that goes with the head of a year', () => {
    const head = fc.constantFrom('US-CITES WY BOB 2024 ', 'US-CITES WY BOB 2025 ', 'US-CITES WY BOB 2026 ');
    fc.assert(
      fc.property(fc.uniqueArray(head), fc.integer({ min: 100, max: 999_999 }), (heads, serial) => {
        const offered = tagHead(wyoming(heads));
        fc.pre(/\d$/.test(offered));
        const whole = withTagHead(String(serial), offered);
        expect(asks(heads, [whole])).toBeNull();
        expect(['2025', '2026']).toContain(offered.slice(-4));
      }),
    );
  });
});
