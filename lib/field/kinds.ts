/**
 * The kinds of facts that are typed, stored in files and written again. Each kind reads a text and writes it again, so
 * that a price means the same at the door, in an exchange folder and on a screen. Figures go through the parsers of
 * `lib/`. No zod here: the forms of the browser read these too.
 */
import { parseDate, shortDate } from '#lib/date/date.ts';
import { readDate } from '#lib/date/typed-date.ts';
import { parseLotNo } from '#lib/lot/number.ts';
import {
  type Cents,
  cents,
  formatMoney,
  formatWeight,
  type MoneyOptions,
  parseMoney,
  readMoney,
} from '#lib/money/money.ts';
import { parseRate, type Rate, rate, readRate } from '#lib/money/rate.ts';
import { parseCount, parseWeight } from '#lib/quantity/quantity.ts';
import { accept, firstMistake, type Mistake, type Result, refuse } from '#lib/result/result.ts';

export interface FieldKind<T> {
  read(text: string): Result<T>;
  write(value: T): string;
}

export type Unit = '' | 'Cents' | 'Thousandths';

/** Read by a parser. Its unit is written behind the name wherever the value itself is stored: `minimumCents`. */
export interface FigureKind<T, U extends Unit = ''> extends FieldKind<T> {
  readonly as: 'figure';
  readonly unit: U;
  /** Gives a value out of the book its type. Throws a RangeError where it cannot have it. */
  readonly known?: (stored: never) => T;
}

export interface Words extends FieldKind<string> {
  readonly as: 'words';
  readonly unit: '';
  readonly most: number;
  readonly mustSay: boolean;
}

export interface Flag extends FieldKind<boolean> {
  readonly as: 'flag';
  readonly unit: '';
}

export interface ChoiceKind<W extends string> extends FieldKind<W> {
  readonly as: 'choice';
  readonly unit: '';
  readonly words: readonly W[];
}

const itself = (value: string): string => value;

function figure<T>(read: (text: string) => Result<T>, write: (value: T) => string): FigureKind<T> {
  return { as: 'figure', unit: '', read, write };
}

/** An empty text says nothing, and is read as null. */
function orNull<T, U extends Unit>(kind: FieldKind<T> & { readonly unit: U }): FigureKind<T | null, U> {
  return {
    ...kind,
    as: 'figure',
    read: (text) => (text === '' ? accept(null) : kind.read(text)),
    write: (value) => (value === null ? '' : kind.write(value)),
  };
}

export const LONGEST_TEXT = 500;
/**
 * A control character cannot be typed on purpose, and a lone surrogate has no canonical form for the log. Marks of
 * direction (Unicode's Bidi_Control) make a name look like another on a paper, and so do characters without width.
 */
export const UNPRINTABLE = /(?![\n\r\t])[\p{Cc}\p{Cs}\p{Bidi_Control}\u200B\u2028\u2029\u2060\uFEFF]/u;

export const SAY = {
  tooLong: (most: number) => `Enter at most ${most} characters.`,
  unprintable: 'There are characters here that cannot be seen: type it again instead of pasting it.',
  nothing: 'Enter something here.',
};

function wordsOf(most: number, mustSay: boolean): Words {
  return {
    ...{ as: 'words', unit: '', most, mustSay, write: itself },
    read(text) {
      if (text.length > most) return refuse('malformed', SAY.tooLong(most));
      if (UNPRINTABLE.test(text)) return refuse('malformed', SAY.unprintable);
      return mustSay && text.trim() === '' ? refuse('malformed', SAY.nothing) : accept(text);
    },
  };
}

function money(options: MoneyOptions = {}): FigureKind<Cents, 'Cents'> {
  return { as: 'figure', unit: 'Cents', read: (text) => parseMoney(text, options), write: formatMoney, known: cents };
}

/** The same as people type it. */
function amount(options: MoneyOptions = {}): FigureKind<Cents, 'Cents'> {
  return { ...money(options), read: (text) => readMoney(text, options) };
}

function oneOf<const W extends string>(...all: readonly W[]): ChoiceKind<W> {
  const list = `${all.slice(0, -1).join(', ')} or ${all.at(-1)}`;
  return {
    ...{ as: 'choice', unit: '', words: all, write: itself },
    read(text) {
      const known = all.find((word) => word === text);
      return known === undefined ? refuse('malformed', `Write ${list}.`) : accept(known);
    },
  };
}

const flag: Flag = {
  ...{ as: 'flag', unit: '' },
  read(text) {
    if (text === 'yes') return accept(true);
    return text === 'no' || text === '' ? accept(false) : refuse('malformed', 'Write yes or no.');
  },
  write: (value) => (value ? 'yes' : 'no'),
};

const WHOLE_MISTAKES: readonly Mistake[] = [
  { when: /^$/, code: 'missing', say: 'Enter a whole number, such as 12.' },
  { when: /\D/, say: 'Enter a whole number in digits, such as 12.' },
  { when: /^0+$/, say: 'Enter a whole number from 1.' },
  { when: /^0*\d{6,}$/, code: 'too_large', say: 'Enter a whole number of at most 99999.' },
];

const TIME = /^T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d([.,]\d{1,9})?)?(Z|[+-]([01]\d|2[0-3])(:?[0-5]\d)?)?$/;

function parseMoment(text: string): Result<string> {
  const [, day = text, time = ''] = /^(\d{4}-\d\d-\d\d)(.*)$/s.exec(text) ?? [];
  const read = parseDate(day);
  if (!read.ok) return read;
  if (time === '' || TIME.test(time)) return accept(text);
  return refuse('malformed', 'Write the time behind the date as ISO 8601 has it: 2026-02-28T14:30:00Z.');
}

function parseWordList(text: string): Result<string[]> {
  const list = text.split(',').map((word) => word.trim());
  return accept(list.filter((word) => word !== ''));
}

export const KIND = {
  ...{ orNull, money, amount, oneOf, flag },
  /** Words, or nothing, of at most so many characters. */
  wordsUpTo: (most: number) => wordsOf(most, false),
  words: wordsOf(LONGEST_TEXT, false),
  name: wordsOf(LONGEST_TEXT, true),
  shortName: wordsOf(40, true),
  wordList: figure(parseWordList, (list) => list.join(', ')),
  count: figure(parseCount, String),
  /** In thousandths of a pound or an ounce. */
  weight: { ...figure(parseWeight, formatWeight), unit: 'Thousandths' } as const,
  /** A percentage, stored as it was typed. */
  percentage: { ...figure(parseRate, itself), known: rate } satisfies FigureKind<Rate>,
  /** The same as people type it. */
  percent: { ...figure(readRate, itself), known: rate } satisfies FigureKind<Rate>,
  currency: figure(parseCurrency, itself),
  region: figure(parseRegion, itself),
  regionOrEmpty: figure((text) => (text === '' ? accept('') : parseRegion(text)), itself),
  lotNumber: figure(parseLotNo, itself),
  /** A seller or buyer number, or a partner's parts: a whole number from 1 to 99999. */
  wholeNumber: figure((text) => firstMistake(WHOLE_MISTAKES, text) ?? accept(Number.parseInt(text, 10)), String),
  date: figure(parseDate, itself),
  /** The same as people type and read it. */
  day: figure(readDate, shortDate),
  moment: figure(parseMoment, itself),
  momentOrEmpty: figure((text) => (text === '' ? accept('') : parseMoment(text)), itself),
};

export function parseRegion(text: string): Result<string> {
  if (/^[A-Z]{2}-[A-Z0-9]{1,3}$/.test(text)) return accept(text);
  return refuse('malformed', 'Enter the region as country and State, such as US-WY (ISO 3166-2).');
}

function parseCurrency(text: string): Result<string> {
  if (/^[A-Z]{3}$/.test(text)) return accept(text);
  return refuse('malformed', 'Enter the currency as three capital letters, such as USD (ISO 4217).');
}
