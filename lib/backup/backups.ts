/** How things stand with the backups in one folder, in sentences. */
import { addDays, daysBetween, localDay } from '#lib/date/date.ts';

interface NewestBackup {
  readonly at: string;
  /** Where its log ends, or null where that is not known. */
  readonly line: number | null;
  /** Whether that line is one of the book's own log. */
  readonly inBook: boolean;
  /** Whether another backup beside it has entries that the book does not. */
  readonly beaten: boolean;
}

export interface BackupsContext {
  readonly now: string;
  readonly newest: NewestBackup | null;
  readonly line: number;
  /** Every how many minutes a copy is made; 0 for never. */
  readonly minutes: number;
  /** What the last attempt said where it failed; null where it went well or none was made. */
  readonly failed: string | null;
}

export function backupsInWords(context: BackupsContext): {
  readonly warning: string | null;
  readonly standing: string;
} {
  const { newest, failed, line, minutes } = context;
  const since = newest?.line == null || !newest.inBook ? line : line - newest.line;
  const standing = newest ? `The newest is ${ago(newest.at, context.now)} old. ${entries(newest, since)}` : '';
  if (failed !== null) return { warning: `The last backup failed: ${failed} ${standing}`.trim(), standing };
  if (!newest)
    return { warning: line === 0 ? null : 'There is no backup here yet. Make one now.', standing: 'None yet.' };
  const old = minutes > 0 && since > 0 && minutesBetween(newest.at, context.now) > 3 * minutes;
  return { warning: old ? `The last backup is too old. ${standing} Make one now.` : null, standing };
}

function entries({ line, inBook, beaten }: NewestBackup, since: number): string {
  if (line === null) return 'What is in it is not known.';
  if (!inBook) return 'It has entries that the book does not.';
  if (since === 0) return beaten ? 'It has what the book has, and no more.' : 'Everything that was entered is in it.';
  return since === 1 ? '1 entry was made since.' : `${since} entries were made since.`;
}

export interface AheadContext {
  readonly name: string;
  /** How many entries it has that the book does not; null where its file cannot be read. */
  readonly more: number | null;
  readonly fewer: number | null;
}

/** For a backup that has entries the book does not have: what is the matter, and what to do. */
export function aheadInWords({ name, more, fewer }: AheadContext): { readonly title: string; readonly toDo: string } {
  const what = more === null ? 'entries' : counted(more);
  const title = `This backup has ${what} that the book does not: ${name}. Do not go on entering.`;
  if (fewer === 0)
    return {
      title,
      toDo: 'Stop the program, move the book to another folder, and restore this backup in its place. Delete nothing.',
    };
  const own = fewer === null ? 'The book may have entries' : `The book has ${counted(fewer)}`;
  const choose = 'Choose which of the two to go on with, and enter there by hand what it lacks.';
  const then = 'Then move this backup to another folder, and this notice goes.';
  return { title, toDo: `${own} that this backup does not. Keep both. ${choose} ${then}` };
}

export function counted(entries: number): string {
  return entries === 1 ? '1 entry' : `${entries} entries`;
}

function ago(then: string, now: string): string {
  const minutes = minutesBetween(then, now);
  if (minutes < 2) return 'less than two minutes';
  if (minutes < 120) return `${minutes} minutes`;
  return minutes < 48 * 60 ? `${Math.floor(minutes / 60)} hours` : `${Math.floor(minutes / 1440)} days`;
}

function minutesBetween(then: string, now: string): number {
  return Math.max(0, Math.floor((Date.parse(now) - Date.parse(then)) / 60_000));
}

/** Where the log of a copy ends. The hash of a line is over all lines before it. */
export interface CopyHead {
  readonly line: number;
  readonly hash: string;
}

export interface DatedCopy {
  readonly name: string;
  readonly at: string;
  /** Null where nobody can say what is in it. */
  readonly head: CopyHead | null;
}

interface Thinning {
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
