import { describe, expect, it } from 'vitest';
import { licenceInWords, membershipInWords } from '#lib/person/person.ts';

// Who is a member on the day of the sale follows the exchange folder's rule: dues paid to that day or beyond.
describe('membership in words', () => {
  const on = '2026-02-28';
  it.each([
    [
      'paid to the day itself',
      { memberNo: '7', memberUntil: on },
      { state: 'paid', words: 'Member 7, dues paid until Feb 28, 2026' },
    ],
    [
      'no number yet',
      { memberNo: '', memberUntil: '2026-12-31' },
      { state: 'paid', words: 'Member, dues paid until Dec 31, 2026' },
    ],
    [
      'ran out the day before',
      { memberNo: '7', memberUntil: '2026-02-27' },
      { state: 'lapsed', words: 'Lapsed: dues of member 7 ran out on Feb 27, 2026' },
    ],
    ['nobody', { memberNo: '', memberUntil: null }, { state: 'guest', words: 'Guest' }],
    [
      'a number only',
      { memberNo: '7', memberUntil: null },
      { state: 'guest', words: 'Guest: member 7 without dues on record' },
    ],
  ])('%s', (_, facts, standing) => {
    expect(membershipInWords(facts, on)).toEqual(standing);
  });
});

describe('the licence in words', () => {
  const licence = { licenceNo: 'T-1', licenceRegion: 'US-WY', licenceExpires: '2026-06-30' };
  it.each([
    ['good', licence, { state: 'good', words: 'Licence T-1 of US-WY, good until Jun 30, 2026' }],
    [
      'good on its last day',
      { ...licence, licenceExpires: '2026-02-28' },
      { state: 'good', words: expect.stringContaining('good until') },
    ],
    [
      'expired',
      { ...licence, licenceExpires: '2026-02-27' },
      { state: 'expired', words: 'Licence T-1 of US-WY expired on Feb 27, 2026' },
    ],
    [
      'undated',
      { ...licence, licenceExpires: null },
      { state: 'undated', words: 'Licence T-1 of US-WY, no expiry on record' },
    ],
    ['no region', { ...licence, licenceRegion: '' }, { state: 'good', words: 'Licence T-1, good until Jun 30, 2026' }],
    ['missing', { ...licence, licenceNo: '' }, { state: 'missing', words: 'No licence on record' }],
  ])('%s', (_, facts, standing) => {
    expect(licenceInWords(facts, '2026-02-28')).toEqual(standing);
  });
});
