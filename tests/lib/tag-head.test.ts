import { describe, expect, it } from 'vitest';
import { tagHead, withTagHead } from '#lib/tag-head.ts';
import { expandTags } from '#lib/tag-list.ts';

describe('what stands before the number of a tag', () => {
  const wy = { region: 'US-WY', tagSpeciesCode: 'BOB' };
  it.each([
    ['no tag yet: no year is made up', { ...wy, newest: null }, 'US-CITES WY BOB'],
    ['as on the newest tag', { ...wy, newest: 'US-CITES WY BOB 2025 000103' }, 'US-CITES WY BOB 2025'],
    ['another State’s tag says nothing', { ...wy, newest: 'US-CITES MT BOB 2025 000103' }, 'US-CITES WY BOB'],
    ['a replacement tag says nothing', { ...wy, newest: 'US-CITES FWS-REPL 001234' }, 'US-CITES WY BOB'],
    ['goods without a code', { region: 'US-WY', tagSpeciesCode: '', newest: null }, ''],
  ])('%s', (_, facts, head) => {
    expect(tagHead(facts)).toBe(head);
  });

  it.each([
    ['000101', 'US-CITES WY BOB 2025 000101'],
    [' 000101-103', 'US-CITES WY BOB 2025 000101-103'],
    ['us-cites wy bob 000101', 'us-cites wy bob 000101'],
  ])('%s', (typed, whole) => {
    expect(withTagHead(typed, 'US-CITES WY BOB 2025')).toBe(whole);
  });

  it('makes a range of numbers alone the same tags as the range written out', () => {
    const short = expandTags(withTagHead('000101-103', 'US-CITES WY BOB 2025'));
    expect(short).toEqual(
      expandTags('US-CITES WY BOB 2025 000101, US-CITES WY BOB 2025 000102, US-CITES WY BOB 2025 000103'),
    );
  });
});
