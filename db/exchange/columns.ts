/**
 * What the cells of an exchange folder may hold: each kind reads a text and writes it again, so that a column of the
 * folder is described once for both ways. Figures go through the parsers of `lib/`.
 */
import type { z } from 'zod';
import { parseRegion } from '#lib/codes.ts';
import { parseDate } from '#lib/dates.ts';
import { parseLotNo } from '#lib/lot-number.ts';
import { firstMistake, type Mistake } from '#lib/mistake.ts';
import { type Cents, formatMoney, formatWeight, type MoneyOptions, parseMoney } from '#lib/money.ts';
import { parseCount, parseWeight } from '#lib/quantity.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { parseTag } from '#lib/tag.ts';
import { someText, text } from '../inputs.ts';

export interface Column<T> {
  read(text: string): Result<T>;
  write(value: T): string;
}

const itself = (value: string): string => value;

/** Words under the same limits as on the screens. */
function typed(field: z.ZodType<string, string | undefined>): Column<string> {
  return {
    read(cell) {
      const read = field.safeParse(cell);
      if (read.success) return accept(read.data);
      return refuse('malformed', read.error.issues[0]?.message ?? 'Enter this as text.');
    },
    write: itself,
  };
}

export const words = typed(text);
export const name = typed(someText);
export const shortName = typed(someText.max(40, { error: 'Enter at most 40 characters.' }));

/** An empty cell says nothing, and is read as null. */
export function orNull<T>(column: Column<T>): Column<T | null> {
  return {
    read: (cell) => (cell === '' ? accept(null) : column.read(cell)),
    write: (value) => (value === null ? '' : column.write(value)),
  };
}

export function money(options: MoneyOptions = {}): Column<Cents> {
  return { read: (cell) => parseMoney(cell, options), write: formatMoney };
}

export const count: Column<number> = { read: parseCount, write: String };
/** In thousandths of the unit. */
export const weight: Column<number> = { read: parseWeight, write: formatWeight };
export const date: Column<string> = { read: parseDate, write: itself };
export const lotNumber = { read: parseLotNo, write: itself };
export const region: Column<string> = {
  read: (cell) => (cell === '' ? accept('') : parseRegion(cell)),
  write: itself,
};

export const exportTag: Column<string> = {
  read(cell) {
    const tag = parseTag(cell);
    return tag.ok ? accept(tag.value.canonical) : tag;
  },
  write: itself,
};

export const flag: Column<boolean> = {
  read(cell) {
    if (cell === 'yes') return accept(true);
    return cell === 'no' || cell === '' ? accept(false) : refuse('malformed', 'Write yes or no.');
  },
  write: (value) => (value ? 'yes' : 'no'),
};

export function oneOf<const W extends string>(...all: readonly W[]): Column<W> {
  const list = `${all.slice(0, -1).join(', ')} or ${all.at(-1)}`;
  return {
    read(cell) {
      const known = all.find((word) => word === cell);
      return known === undefined ? refuse('malformed', `Write ${list}.`) : accept(known);
    },
    write: itself,
  };
}

const WHOLE_MISTAKES: readonly Mistake[] = [
  { when: /^$/, code: 'missing', say: 'Enter a whole number, such as 12.' },
  { when: /\D/, say: 'Enter a whole number in digits, such as 12.' },
  { when: /^0+$/, say: 'Enter a whole number from 1.' },
  { when: /^0*\d{6,}$/, code: 'too_large', say: 'Enter a whole number of at most 99999.' },
];

/** A seller or buyer number, or a partner's parts: a whole number from 1 to 99999. */
export const wholeNumber: Column<number> = {
  read: (cell) => firstMistake(WHOLE_MISTAKES, cell) ?? accept(Number.parseInt(cell, 10)),
  write: String,
};

const TIME = /^T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d([.,]\d{1,9})?)?(Z|[+-]([01]\d|2[0-3])(:?[0-5]\d)?)?$/;

/** An ISO 8601 date, or a date with a time; kept as it is written. */
export const moment: Column<string> = {
  read(cell) {
    const [, date = cell, time = ''] = /^(\d{4}-\d\d-\d\d)(.*)$/s.exec(cell) ?? [];
    const day = parseDate(date);
    if (!day.ok) return day;
    if (time === '' || TIME.test(time)) return accept(cell);
    return refuse('malformed', 'Write the time behind the date as ISO 8601 has it: 2026-02-28T14:30:00Z.');
  },
  write: itself,
};

export const momentOrEmpty: Column<string> = {
  read: (cell) => (cell === '' ? accept('') : moment.read(cell)),
  write: itself,
};
