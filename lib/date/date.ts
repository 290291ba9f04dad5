/** Calendar dates as ISO 8601 text (`2026-02-28`), without a clock or a time zone. */
import { accept, type Result, refuse } from '#lib/result/result.ts';

const DAY_MS = 86_400_000;

/** Reads a date that is in the calendar; 2026-02-29 is not. */
export function parseDate(text: string): Result<string> {
  if (text === '') return refuse('missing', 'Enter the date as year-month-day: 2026-02-28.');
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return refuse('malformed', 'Enter the date as year-month-day: 2026-02-28.');
  const at = Date.parse(`${text}T00:00:00Z`);
  if (Number.isNaN(at) || textOf(at) !== text) {
    return refuse('malformed', `${text} is not in the calendar: check the day and the month.`);
  }
  return accept(text);
}

/** The date so many days later, or earlier when negative. Throws a RangeError when `date` is not a date. */
export function addDays(date: string, days: number): string {
  return textOf(timeOf(date) + days * DAY_MS);
}

export function daysBetween(from: string, to: string): number {
  return (timeOf(to) - timeOf(from)) / DAY_MS;
}

/**
 * The last day on which raw fur of a season may be held without a further application: 10 days after the season closes
 * (Neb. Rev. Stat. § 37-464 as an example; ask the wildlife agency of the State).
 */
export function heldUntil(seasonClosesOn: string, days = 10): string {
  return addDays(seasonClosesOn, days);
}

function timeOf(date: string): number {
  const read = parseDate(date);
  if (!read.ok) throw new RangeError(`${date} is not a date`);
  return Date.parse(`${date}T00:00:00Z`);
}

function textOf(time: number): string {
  return new Date(time).toISOString().slice(0, 10);
}
