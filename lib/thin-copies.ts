/** Which of many dated copies may go: all of today are kept, then one a day, then one a week. */
import { addDays, daysBetween } from './dates.ts';
import { localDay } from './local-day.ts';

export interface DatedCopy {
  readonly name: string;
  /** ISO 8601 time in UTC. */
  readonly at: string;
}

/** Copies younger than so many days are kept one a day; older ones one a week. */
export const ONE_A_DAY_FOR = 14;

/**
 * The names of the copies that the rule lets go, oldest first. Of each day and each week the newest is kept.
 * A copy from a day after today is kept: then a clock was wrong, and nothing is to be judged by it.
 * `now` is an ISO 8601 time in UTC; days are those of the time zone, so that an evening is not cut in two.
 */
export function copiesToLetGo(copies: readonly DatedCopy[], now: string, timeZone: string): string[] {
  const today = localDay(now, timeZone);
  const newestFirst = [...copies].sort((a, b) => (a.at < b.at ? 1 : a.at > b.at ? -1 : 0));
  const seen = new Set<string>();
  const go: string[] = [];
  for (const [place, copy] of newestFirst.entries()) {
    const day = localDay(copy.at, timeZone);
    if (day >= today || place === 0) continue;
    const span = daysBetween(day, today) <= ONE_A_DAY_FOR ? day : weekOf(day);
    if (seen.has(span)) go.push(copy.name);
    seen.add(span);
  }
  return go.reverse();
}

/** The Monday of the week of a date; 1970-01-05 was one. */
function weekOf(day: string): string {
  const since = daysBetween('1970-01-05', day);
  return `week of ${addDays(day, -(((since % 7) + 7) % 7))}`;
}
