import { describe, expect, it } from 'vitest';
import { someText, text } from '#db/book/inputs.ts';
import { KIND } from '#lib/field/kinds.ts';

/** Of Unicode's Bidi_Control, and of what has no width: a name with one of them looks like another on a paper. */
const UNSEEN = [
  '\u202e',
  '\u202a',
  '\u2066',
  '\u2069',
  '\u200e',
  '\u200f',
  '\u061c',
  '\u200b',
  '\ufeff',
  '\u2028',
  '\u0000',
  '\u001b',
];

describe('a name or a text', () => {
  it.each(UNSEEN.map((mark) => [mark.charCodeAt(0).toString(16), mark]))('takes no U+%s', (_, mark) => {
    for (const schema of [text, someText]) expect(schema.safeParse(`Wren ${mark}Tallow`).success).toBe(false);
    for (const kind of [KIND.name, KIND.words]) expect(kind.read(`Wren ${mark}Tallow`).ok).toBe(false);
  });

  it.each(['Żaneta O’Neil', 'שרה', 'Zoë 👩‍🌾', 'two\nlines'])('takes %j', (name) => {
    expect([text.safeParse(name).success, KIND.name.read(name).ok]).toEqual([true, true]);
  });
});
