/**
 * The fields that commands take, as zod schemas over the text a person types.
 * Each rests on the reader of its word in `lib/`, so that a price is read the same way at the door and on a screen; a
 * folder has one spelling of it. The log keeps the text as it was typed; the command sees the parsed value.
 */
import * as z from 'zod';
import { readDate } from '#lib/date/typed-date.ts';
import { type AnyField, type AnyFields, type ColumnName, columnName, type KindValue } from '#lib/field/fields.ts';
import { type ChoiceKind, type Flag, LONGEST_TEXT, SAY, UNPRINTABLE } from '#lib/field/kinds.ts';
import { parseLotNo } from '#lib/lot/number.ts';
import { readMoney } from '#lib/money/money.ts';
import { readRate } from '#lib/money/rate.ts';
import { parseCount, parseWeight } from '#lib/quantity/quantity.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { canonical } from './log.ts';

/** A field read by a parser of `lib/`; its refusal becomes the field's message. */
export function readBy<T>(parse: (text: string) => Result<T>) {
  return z
    .string({ error: 'Enter this as text.' })
    .max(LONGEST_TEXT, { error: SAY.tooLong(LONGEST_TEXT) })
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

export const price = readBy((text) => readMoney(text, { allowZero: false }));
export const signedAmount = readBy((text) => readMoney(text, { allowNegative: true, allowZero: false }));
export const amountOrNull = readByOrNull((text) => readMoney(text));
export const percentage = readBy(readRate);
export const pieces = readBy(parseCount);
export const piecesOrNull = readByOrNull(parseCount);
export const weightOrNull = readByOrNull(parseWeight);
export const lotNumber = readBy(parseLotNo);
export const dateOrNull = readByOrNull(readDate);

function plainText(most: number) {
  return z
    .string({ error: 'Enter this as text.' })
    .max(most, { error: SAY.tooLong(most) })
    .refine((text) => !UNPRINTABLE.test(text), { error: SAY.unprintable });
}

/** Free text of at most 500 characters; empty where nothing was said. */
export const text = plainText(LONGEST_TEXT).default('');

/** A name, which must say something. */
export const someText = saying(LONGEST_TEXT, SAY.nothing);

/** Why something is voided, corrected or given up, which must be said. */
export const someReason = saying(LONGEST_TEXT, 'Say why in a few words, such as: typed twice.');

function saying(most: number, error: string) {
  return plainText(most).refine((value) => value.trim() !== '', { error });
}

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

type PlainSchema<K> = K extends Flag
  ? z.ZodBoolean
  : K extends ChoiceKind<infer W>
    ? z.ZodEnum<{ readonly [V in W]: V }>
    : z.ZodType<KindValue<K>, string>;
type SchemaOf<F extends AnyField> = F extends { readonly empty: unknown }
  ? z.ZodDefault<PlainSchema<F['kind']>>
  : PlainSchema<F['kind']>;

function shape(fields: AnyFields, nameOf: (name: string) => string): unknown {
  return Object.fromEntries(Object.entries(fields).map(([name, field]) => [nameOf(name), schemaOf(field)]));
}

/** The input that takes these fields. Which schema belongs to which name only the list says. */
export function shapeOf<F extends AnyFields>(fields: F) {
  return shape(fields, (name) => name) as { readonly [N in keyof F]: SchemaOf<F[N]> };
}

/** The same under the names of the columns, as a file has it. */
export function columnShapeOf<F extends AnyFields>(fields: F) {
  return shape(fields, columnName) as { readonly [N in keyof F & string as ColumnName<N>]: SchemaOf<F[N]> };
}

function schemaOf(field: AnyField): z.ZodType {
  const schema = plainSchema(field.kind);
  return 'empty' in field ? schema.default(field.empty) : schema;
}

function plainSchema(kind: AnyField['kind']): z.ZodType {
  if (kind.as === 'flag') return flag;
  if (kind.as === 'choice') return z.enum(kind.words);
  if (kind.as === 'words') return kind.mustSay ? saying(kind.most, SAY.nothing) : plainText(kind.most);
  return readBy((typed) => kind.read(typed));
}

/** Gives a sentence for every kind of issue that zod finds; a message written in a schema goes before it. */
export function plainWords(issue: z.core.$ZodRawIssue): string {
  switch (issue.code) {
    case 'invalid_value':
      return `Choose one of these: ${issue.values.join(', ')}.`;
    case 'unrecognized_keys':
      return `Leave out ${issue.keys.join(', ')}: this entry has no such field.`;
    case 'invalid_type':
      return issue.input === undefined ? 'Fill this in: it is missing.' : `Enter this as ${kindOf(issue.expected)}.`;
    case 'too_big':
      return `Enter at most ${issue.maximum}${unitOf(issue.origin)}.`;
    case 'too_small':
      return `Enter at least ${issue.minimum}${unitOf(issue.origin)}.`;
    default:
      return 'Check what was entered here.';
  }
}

const KINDS: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'yes or no',
  array: 'a list',
  object: 'named fields',
  record: 'named fields',
};

function kindOf(expected: string): string {
  return KINDS[expected] ?? 'something else';
}

function unitOf(origin: string): string {
  if (origin === 'string') return ' characters';
  return origin === 'array' ? ' of them' : '';
}

/** No entry of a person is nested so deep. What walks it by calling itself, here and in SQLite, ends before its stack does. */
const DEEPEST = 32;

/**
 * RFC 8785 text of an input that fits its schema. A schema looks at the fields it knows, so a text in a place that it
 * leaves free may still be half a character, and a value there nested without end.
 */
export function inputText(input: unknown): Result<string> {
  if (isDeeper(input, DEEPEST))
    return refuse('malformed', 'Reload the page and enter this anew: it is nested too deep.');
  try {
    return accept(canonical(input));
  } catch {
    return refuse('malformed', SAY.unprintable);
  }
}

function isDeeper(value: unknown, than: number): boolean {
  if (typeof value !== 'object' || value === null) return false;
  return than === 0 || Object.values(value).some((inside) => isDeeper(inside, than - 1));
}
