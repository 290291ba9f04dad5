import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseTag } from '#lib/tag/number.ts';

describe('parseTag', () => {
  it.each([
    'US-CITES WY BOB 2025 000101',
    'us-cites wy bob 2025 000101',
    'US CITES WY BOB 2025 000101',
    'USCITES-WY-BOB-2025-000101',
    '  US.CITES/WY/BOB/2025/000101  ',
    'US\u2013CITES\u00a0WY  BOB 2025\t000101',
    'US_CITES.WY.BOB.2025.000101',
  ])('reads %j in one spelling', (text) => {
    expect(parseTag(text)).toEqual({
      ok: true,
      value: {
        canonical: 'US-CITES WY BOB 2025 000101',
        state: 'WY',
        species: 'BOB',
        year: '2025',
        serial: '000101',
        replacement: false,
      },
    });
  });

  it('reads a tag without the year of take, and one of a Tribe', () => {
    expect(parseTag('US-CITES WY BOB 000101')).toMatchObject({
      value: { canonical: 'US-CITES WY BOB 000101', year: null },
    });
    expect(parseTag('US-CITES PENOB OTT A00101')).toMatchObject({ value: { state: 'PENOB', serial: 'A00101' } });
    expect(parseTag('US-CITES WY BOB ABC101')).toMatchObject({ value: { serial: 'ABC101', year: null } });
    // Four digits and nothing behind them are the number.
    expect(parseTag('US-CITES WY BOB 2025')).toMatchObject({ value: { serial: '2025', year: null } });
  });

  it.each(['US-CITES FWS-REPL 001234', 'us cites fws repl 001234', 'USCITES FWSREPL 001234'])(
    'reads the replacement %s',
    (text) => {
      expect(parseTag(text)).toEqual({
        ok: true,
        value: {
          canonical: 'US-CITES FWS-REPL 001234',
          state: null,
          species: null,
          year: null,
          serial: '001234',
          replacement: true,
        },
      });
    },
  );

  // A replacement is let off the check of State and species, so half of its name must not make one.
  it.each([
    ['US-CITES WY REPL 001234', 'WY', 'REPL'],
    ['US-CITES FWS BOB 001234', 'FWS', 'BOB'],
  ])('takes %s for no replacement', (text, state, species) => {
    expect(parseTag(text)).toMatchObject({ value: { canonical: text, state, species, replacement: false } });
  });

  it.each([
    ['', 'missing', 'Enter the number on the tag'],
    [' - ', 'missing', 'Enter the number on the tag'],
    ['WY BOB 2025 000101', 'malformed', 'Begin with US-CITES'],
    ['US WY BOB 2025 000101', 'malformed', 'Begin with US-CITES'],
    ['CA-CITES WY BOB 2025 000101', 'malformed', 'Begin with US-CITES'],
    ['US-CITES', 'malformed', 'letters of the State or Tribe'],
    ['US-CITES 000101', 'malformed', 'letters of the State or Tribe'],
    ['US-CITES WASHINGTON BOB 2025 000101', 'malformed', 'letters of the State or Tribe'],
    ['US-CITES WY', 'malformed', 'species code'],
    ['US-CITES WY 000101', 'malformed', 'species code'],
    ['US-CITES WY BOBCATS 2025 000101', 'malformed', 'species code'],
    ['US-CITES WY BOB', 'malformed', "tag's own number"],
    ['US-CITES WY BOB 12', 'malformed', "tag's own number"],
    ['US-CITES WY BOB ABCDEF', 'malformed', "tag's own number"],
    ['US-CITES WY BOB 2025 1234567890123', 'malformed', "tag's own number"],
    ['US-CITES WY BOB 2025 000101 000102', 'malformed', "tag's own number"],
    ['US-CITES WY BOB 000101 000102', 'malformed', '000101 is not a year of take'],
    ['US-CITES WY BOB 20251 000102', 'malformed', '20251 is not a year of take'],
    ['US-CITES WY BOB 12025 000102', 'malformed', '12025 is not a year of take'],
    ['US-CITES FWS-REPL', 'malformed', "tag's own number"],
    ['US-CITES FWS-REPL 001234 5', 'malformed', "tag's own number"],
    ['US-CITES WY BOB 2025 00#101', 'malformed', "tag's own number"],
  ])('refuses %j and says what to do', (text, code, sentence) => {
    expect(parseTag(text)).toMatchObject({ ok: false, code, message: expect.stringContaining(sentence) });
  });

  it('reads its own spelling back, whatever parts the words', () => {
    const word = (pattern: RegExp) => fc.stringMatching(pattern);
    const anyTag = fc.tuple(
      word(/^[A-EG-Z]{2,8}$/),
      word(/^[A-Z]{2,6}$/),
      word(/^(19|20)\d\d$/),
      word(/^[A-Z]?\d{3,11}$/),
    );
    const anyGap = fc.constantFrom(' ', '-', '.', '/', '  ', ' - ');
    fc.assert(
      fc.property(anyTag, anyGap, ([state, species, year, serial], gap) => {
        const read = parseTag(['us', 'cites', state.toLowerCase(), species, year, serial].join(gap));
        expect(read).toMatchObject({ ok: true, value: { state, species, year, serial } });
        if (read.ok) expect(parseTag(read.value.canonical)).toEqual(read);
      }),
    );
  });

  it('never throws', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string({ unit: 'grapheme' }), fc.stringMatching(/^US-CITES [A-Z\d -]{0,20}$/)),
        (text) => {
          const read = parseTag(text);
          if (read.ok) expect(parseTag(read.value.canonical)).toEqual(read);
        },
      ),
    );
  });
});
