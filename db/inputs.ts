/**
 * The fields that commands take, as zod schemas over the text a person types.
 * Each rests on the parser of its word in `lib/`, so that a price is read the same way at the door, in a folder and
 * on a screen. The log keeps the text as it was typed; the command sees the parsed value.
 */
import { z } from 'zod';
import { parseDate } from '#lib/dates.ts';
import { parseLotNo } from '#lib/lot-number.ts';
import { parseMoney, parseRate } from '#lib/money.ts';
import { parseCount, parseWeight } from '#lib/quantity.ts';
import type { Result } from '#lib/result.ts';

const LONGEST_TEXT = 500;

/** A field read by a parser of `lib/`; its refusal becomes the field's message. */
export function readBy<T>(parse: (text: string) => Result<T>) {
  return z
    .string({ error: 'Enter this as text.' })
    .max(LONGEST_TEXT, { error: `Enter at most ${LONGEST_TEXT} characters.` })
    .transform((text, context) => {
      const result = parse(text);
      if (result.ok) return result.value;
      context.addIssue({ code: 'custom', message: result.message });
      return z.NEVER;
    });
}

/** Like {@link readBy}, where an empty text means that nothing was said. */
export function readByOrNull<T>(parse: (text: string) => Result<T>) {
  return readBy<T | null>((text) => (text === '' ? { ok: true, value: null } : parse(text)));
}

export const price = readBy((text) => parseMoney(text, { allowZero: false }));
export const amount = readBy((text) => parseMoney(text));
export const signedAmount = readBy((text) => parseMoney(text, { allowNegative: true, allowZero: false }));
export const amountOrNull = readByOrNull((text) => parseMoney(text));
export const minimumOrNull = readByOrNull((text) => parseMoney(text, { allowZero: false }));
export const percentage = readBy(parseRate);
export const pieces = readBy(parseCount);
export const piecesOrNull = readByOrNull(parseCount);
export const weightOrNull = readByOrNull(parseWeight);
export const lotNumber = readBy(parseLotNo);
export const date = readBy(parseDate);
export const dateOrNull = readByOrNull(parseDate);

// A control character cannot be typed on purpose, and a lone surrogate has no canonical form for the log.
const UNPRINTABLE = /(?![\n\r\t])[\p{Cc}\p{Cs}]/u;

function plainText(most: number) {
  return z
    .string({ error: 'Enter this as text.' })
    .max(most, { error: `Enter at most ${most} characters.` })
    .refine((text) => !UNPRINTABLE.test(text), { error: 'Leave out the characters that cannot be printed.' });
}

/** Free text of at most 500 characters; empty where nothing was said. */
export const text = plainText(LONGEST_TEXT).default('');

/** A name or a reason, which must say something. */
export const someText = plainText(LONGEST_TEXT).refine((value) => value.trim() !== '', {
  error: 'Enter something here.',
});

/** A moment as ISO 8601 in UTC, such as `2026-02-28T14:05:00Z`. */
export const moment = z.iso.datetime({ error: 'Enter the day and the time of day.' });

export const flag = z.boolean({ error: 'Answer yes or no.' });

/** The book's own number of a row, as the screens carry it. */
export const rowId = z.int({ error: 'Reload the page: this refers to nothing in the book.' }).positive();

/** A seller or buyer number: a whole number from 1. */
export const partyNumber = z
  .int({ error: 'Enter the number as a whole number.' })
  .min(1, { error: 'Numbers begin at 1.' })
  .max(99_999, { error: 'Numbers end at 99999.' });

/** How many the person saw before an act on everybody; an act on one needs none. */
export const seenCount = z
  .int({ error: 'Give how many you have seen as a whole number.' })
  .min(0, { error: 'Give how many you have seen as a whole number.' })
  .max(1_000_000, { error: 'Give at most 1000000.' })
  .nullable()
  .default(null);
