/**
 * Which of many dated copies may go: all of today are kept, then one a day, then one a week. Only what another copy
 * holds, too, ever goes: a copy that has entries the book does not have may be the only one that has them.
 */
import { addDays, daysBetween } from './dates.ts';
import { localDay } from './local-day.ts';

/** Where the log of a copy ends. The hash of a line is over all lines before it. */
export interface CopyHead {
  readonly line: number;
  readonly hash: string;
}

export interface DatedCopy {
  readonly name: string;
  /** ISO 8601 time in UTC. */
  readonly at: string;
  /** Null where nobody can say what is in it. */
  readonly head: CopyHead | null;
}

interface Thinning {
  /** ISO 8601 time in UTC. */
  readonly now: string;
  /** Where the association is: its days are meant. */
  readonly timeZone: string;
  /** Whether a head is a line of the book's own log, so that the book and every longer copy of it hold it whole. */
  readonly inBook: (head: CopyHead) => boolean;
}

/** Copies younger than so many days are kept one a day; older ones one a week. */
const ONE_A_DAY_FOR = 14;

/**
 * The names of the copies that the rule lets go, oldest first. Of each day and each week the newest is kept, and of all
 * the one with the most lines, so that whatever goes is the beginning of one that stays.
 * A copy from a day after today is kept: then a clock was wrong, and nothing is to be judged by it. Kept is also every
 * copy whose head is not in the book, or not known. Days are those of the time zone, so that an evening is not cut in two.
 */
export function copiesToLetGo(copies: readonly DatedCopy[], { now, timeZone, inBook }: Thinning): string[] {
  const today = localDay(now, timeZone);
  const newestFirst = copies
    .flatMap(({ name, at, head }) => (head && inBook(head) ? [{ name, at, line: head.line }] : []))
    .sort((a, b) => (a.at < b.at ? 1 : a.at > b.at ? -1 : 0));
  const most = Math.max(...newestFirst.map(({ line }) => line));
  const longest = newestFirst.find(({ line }) => line === most);
  const seen = new Set<string>();
  const go: string[] = [];
  for (const [place, copy] of newestFirst.entries()) {
    const day = localDay(copy.at, timeZone);
    if (day >= today || place === 0) continue;
    const span = daysBetween(day, today) <= ONE_A_DAY_FOR ? day : weekOf(day);
    if (seen.has(span) && copy !== longest) go.push(copy.name);
    seen.add(span);
  }
  return go.reverse();
}

/** The Monday of the week of a date; 1970-01-05 was one. */
function weekOf(day: string): string {
  const since = daysBetween('1970-01-05', day);
  return `week of ${addDays(day, -(((since % 7) + 7) % 7))}`;
}
