/** The day and the time of an instant as this book's association has them. Nothing here asks the machine. */
import { dayAndTimeInWords, localDay, NO_ZONE_YET } from '#lib/local-day.ts';
import type { Book } from '../open.ts';
import { openQuietly } from '../open-quietly.ts';
import { theAssociation } from './sales.ts';

export function timeZoneOf(book: Book): string {
  return theAssociation(book)?.timeZone || NO_ZONE_YET;
}

/** The local day of an ISO 8601 time, as an ISO 8601 date. */
export function dayIn(book: Book, instant: string): string {
  return localDay(instant, timeZoneOf(book));
}

/** The day and the time of an ISO 8601 time in words, such as `2026-11-29 20:05`. */
export function momentIn(book: Book, instant: string): string {
  return dayAndTimeInWords(instant, timeZoneOf(book));
}

/** The zone that a book at rest keeps, also of one whose tables are those of a version that kept none. */
export function timeZoneOfFile(file: string): string {
  const sqlite = openQuietly(file);
  try {
    const kept = sqlite.prepare(`SELECT 1 FROM pragma_table_info('association') WHERE name = 'time_zone'`).get();
    if (kept === undefined) return NO_ZONE_YET;
    const zone = sqlite.prepare('SELECT time_zone FROM association').pluck().get();
    return typeof zone === 'string' && zone !== '' ? zone : NO_ZONE_YET;
  } finally {
    sqlite.close();
  }
}
