/** Dates as people write them. The exchange folder has one spelling and reads it by `parseDate`. */
import { type Result, refuse } from '#lib/result/result.ts';
import { parseDate, shortDate } from './date.ts';

const MONTHS = 'january february march april may june july august september october november december'.split(' ');

interface Written {
  readonly year: string;
  readonly month: number;
  readonly day: string;
}

/**
 * Reads a date as it is written in the United States: `3/6/2027`, `Mar 6, 2027`, `6 March 2027`, and `2027-03-06`. What
 * can be read two ways is refused with both readings.
 */
export function readDate(text: string): Result<string> {
  const typed = text.trim().toLowerCase();
  if (typed === '') return refuse('missing', 'Enter the date, such as Feb 28, 2026.');
  const [, first = '', sign = '', second = '', year = ''] =
    /^(\d{1,2})([/.-])(\d{1,2})\2(\d{4}|\d{2})$/.exec(typed) ?? [];
  if (year !== '') return ofNumbers(text.trim(), sign, [first, second], year);
  const written = inOrder(typed) ?? inWords(typed);
  if (written) return inCalendar(text.trim(), written);
  const yearless = inOrder(`2000-${typed.replace('/', '-')}`) ?? inWords(`${typed} 2000`);
  if (yearless) return refuse('malformed', 'Enter the year too, such as Feb 28, 2026.');
  return refuse('malformed', 'Enter the date, such as Feb 28, 2026 or 2/28/2026.');
}

/** The day that stands in a field, as ISO 8601; null where there is none. */
export function dayTyped(text: string): string | null {
  const read = readDate(text);
  return read.ok ? read.value : null;
}

/** The month comes first, unless it can only be the day. Written with points, many mean the day first: that is asked. */
function ofNumbers(text: string, sign: string, [first, second]: readonly [string, string], year: string) {
  const american = inCalendar(text, { year, month: Number.parseInt(first, 10), day: second });
  const other = inCalendar(text, { year, month: Number.parseInt(second, 10), day: first });
  if (!american.ok || !other.ok || american.value === other.value) return american.ok ? american : other;
  if (sign !== '.') return american;
  const readings = `${shortDate(american.value)} or ${shortDate(other.value)}`;
  return refuse('malformed', `${text} can be ${readings}: write the month as a word.`);
}

function inOrder(typed: string): Written | null {
  const [, year, month, day] = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(typed) ?? [];
  return year && month && day ? { year, month: Number.parseInt(month, 10), day } : null;
}

function inWords(typed: string): Written | null {
  const words = typed
    .replace(/[.,]/g, ' ')
    .replace(/(\d)(st|nd|rd|th)\b/g, '$1')
    .split(/[\s-]+/)
    .filter(Boolean);
  const at = words.findIndex((word) => /^[a-z]{3,9}$/.test(word));
  // Any shortening of three letters or more, such as `sept`.
  const month = MONTHS.findIndex((name) => name.startsWith(words[at] ?? ' ')) + 1;
  const [day = '', year = ''] = words.filter((_, place) => place !== at);
  if (words.length !== 3 || at > 1 || month === 0 || !/^\d{1,2}$/.test(day) || !/^(\d\d|\d{4})$/.test(year))
    return null;
  return { year, month, day };
}

function inCalendar(text: string, { year, month, day }: Written): Result<string> {
  const full = year.length === 2 ? `20${year}` : year;
  const read = parseDate(`${full}-${String(month).padStart(2, '0')}-${day.padStart(2, '0')}`);
  return read.ok ? read : refuse('malformed', `${text} is not in the calendar: check the day and the month.`);
}
