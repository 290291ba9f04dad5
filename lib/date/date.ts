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

/** The calendar year of a date, such as `2026`. Of a moment, take the local day first. */
export function yearOf(date: string): string {
  return date.slice(0, 4);
}

function timeOf(date: string): number {
  const read = parseDate(date);
  if (!read.ok) throw new RangeError(`${date} is not a date`);
  return Date.parse(`${date}T00:00:00Z`);
}

function textOf(time: number): string {
  return new Date(time).toISOString().slice(0, 10);
}

// The day and the time of day of an instant where the association is. The one place that makes a day out of an
// instant: eight in the evening in Montana is the next day already in UTC, and on December 31 the next tax year.

/** What a book goes by until somebody has said its time zone. */
export const NO_ZONE_YET = 'UTC';

const UTC = /^(etc\/)?(utc|uct|gmt|zulu|universal|greenwich)$/i;

interface Parts {
  readonly day: string;
  readonly time: string;
}

export function parseTimeZone(text: string): Result<string> {
  const zone = text.trim();
  if (zone === '') return refuse('missing', 'Enter the time zone, such as America/Denver.');
  // An offset such as -07:00 is not a zone: it is wrong for half of the year.
  if (/^[A-Za-z]/.test(zone) && isKnown(zone)) return accept(zone);
  return refuse('malformed', `There is no time zone ${zone}. Choose one of the list, such as America/Denver.`);
}

function isKnown(zone: string): boolean {
  try {
    formatterOf(zone);
    return true;
  } catch (fault) {
    if (fault instanceof RangeError) return false;
    throw fault;
  }
}

/** The day of an instant in a time zone, as an ISO 8601 date. A date without a time stays the day that it is. */
export function localDay(instant: string, timeZone: string): string {
  return partsOf(instant, timeZone).day;
}

export function localTime(instant: string, timeZone: string): string {
  return partsOf(instant, timeZone).time;
}

/** The one form in which people read a time: `8:05 PM`, and `8:05 PM UTC` while nobody has set the time zone. */
export function timeInWords(instant: string, timeZone: string): string {
  const [hours = '', minutes = ''] = localTime(instant, timeZone).split(':');
  const hour = Number.parseInt(hours, 10);
  return `${hour % 12 || 12}:${minutes} ${hour < 12 ? 'AM' : 'PM'}${UTC.test(timeZone) ? ' UTC' : ''}`;
}

/** The one form in which people read an instant: `Nov 29, 2026, 8:05 PM`. */
export function momentInWords(instant: string, timeZone: string): string {
  return `${shortDate(localDay(instant, timeZone))}, ${timeInWords(instant, timeZone)}`;
}

/** The same in a list of what happened: the time alone where it is of the same day as `now`. */
export function listedMoment(instant: string, now: string, timeZone: string): string {
  const isToday = localDay(instant, timeZone) === localDay(now, timeZone);
  return isToday ? timeInWords(instant, timeZone) : momentInWords(instant, timeZone);
}

/** The same in a sentence: `at 5:27 PM`, and of another day than `now` `on Nov 21, 2026 at 5:27 PM`. */
export function whenInWords(instant: string, now: string, timeZone: string): string {
  const time = `at ${timeInWords(instant, timeZone)}`;
  const day = localDay(instant, timeZone);
  return day === localDay(now, timeZone) ? time : `on ${shortDate(day)} ${time}`;
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** `Nov 29, 2026`. Spelt out here: the browser's tables of the language need not be those of the server. */
export function shortDate(date: string): string {
  const [year, month = '', day = ''] = date.split('-');
  return `${MONTHS[Number.parseInt(month, 10) - 1]} ${Number.parseInt(day, 10)}, ${year}`;
}

const LONG = 'January February March April May June July August September October November December'.split(' ');

/** The same on a paper: `November 29, 2026`. */
export function longDate(date: string): string {
  const [year = '', month = '', day = ''] = date.split('-');
  return `${LONG[Number.parseInt(month, 10) - 1] ?? month} ${day.replace(/^0/, '')}, ${year}`;
}

/** How far the clocks of a time zone are ahead of UTC at an instant, in milliseconds. */
export function aheadMs(instant: string, timeZone: string): number {
  return aheadOfUtc(Date.parse(instant), timeZone);
}

export function startOfDay(day: string, timeZone: string): string {
  return instantOf(day, '00:00', timeZone);
}

export function endOfDay(day: string, timeZone: string): string {
  return startOfDay(addDays(day, 1), timeZone);
}

/**
 * The instant at which the clocks of a time zone showed a day and a time, as ISO 8601 in UTC. Of an hour that they went
 * through twice the first is meant; one that they left out is counted as if they had gone on as before.
 */
export function instantOf(day: string, time: string, timeZone: string): string {
  const asUtc = Date.parse(`${day}T${time}:00Z`);
  const [first, second] = [asUtc - DAY_MS, asUtc + DAY_MS].map((near) => asUtc - aheadOfUtc(near, timeZone));
  if (first === undefined || second === undefined || Number.isNaN(asUtc))
    throw new RangeError(`${day} ${time} is no time`);
  const isMeant = (ms: number) => Date.parse(asIfUtc(ms, timeZone)) === asUtc;
  return new Date(!isMeant(first) && isMeant(second) ? second : first).toISOString();
}

function aheadOfUtc(ms: number, timeZone: string): number {
  return Date.parse(asIfUtc(ms, timeZone)) - ms;
}

function asIfUtc(ms: number, timeZone: string): string {
  const { day, time } = partsAt(ms, timeZone);
  return `${day}T${time}:00Z`;
}

// A date, then a time with or without its distance from UTC: what the book and the exchange folder take.
const MOMENT = /^(\d{4}-\d\d-\d\d)(?:T(\d\d:\d\d)(:\d\d)?(?:[.,](\d{1,9}))?(?:Z|([+-]\d\d)(?::?(\d\d))?)?)?$/;

function partsOf(instant: string, timeZone: string): Parts {
  const [whole, day = '', time = '00:00', seconds = ':00', fraction = '0', hours, minutes = '00'] =
    MOMENT.exec(instant) ?? [];
  if (whole === undefined || !parseDate(day).ok) throw new RangeError(`${instant} is not a moment`);
  if (!whole.endsWith('Z') && hours === undefined) return { day, time };
  const zone = hours === undefined ? 'Z' : `${hours}:${minutes}`;
  return partsAt(Date.parse(`${day}T${time}${seconds}.${fraction.slice(0, 3)}${zone}`), timeZone);
}

function partsAt(ms: number, timeZone: string): Parts {
  const parts = new Map(
    formatterOf(timeZone)
      .formatToParts(ms)
      .map(({ type, value }) => [type, value]),
  );
  const part = (type: Intl.DateTimeFormatPartTypes) => parts.get(type) ?? '';
  return {
    day: `${part('year').padStart(4, '0')}-${part('month')}-${part('day')}`,
    time: `${part('hour')}:${part('minute')}`,
  };
}

/** Making one takes longer than hundreds of uses. */
const formatters = new Map<string, Intl.DateTimeFormat>();

function formatterOf(timeZone: string): Intl.DateTimeFormat {
  const known = formatters.get(timeZone);
  if (known) return known;
  const made = new Intl.DateTimeFormat('en-US', {
    timeZone,
    calendar: 'iso8601',
    numberingSystem: 'latn',
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
  });
  formatters.set(timeZone, made);
  return made;
}

interface ClockContext {
  readonly now: string;
  readonly newest: string | null;
  readonly heldOn: string | null;
  readonly timeZone: string;
}

/** Small steps back are what a clock does that is set by radio or network. */
const BACK_MS = 2 * 60_000;
/** A sale is prepared and settled within weeks: so many days away from it the year is wrong, or the month. */
const FAR_DAYS = 120;

/**
 * A sentence where the clock cannot be right, or null. Entries go on either way: their order is by number, and the
 * time beside them is only what the clock said. Common practice, no source.
 */
export function clockWarning({ now, newest, heldOn, timeZone }: ClockContext): string | null {
  const words = (moment: string) => momentInWords(moment, timeZone);
  if (newest !== null && Date.parse(now) < Date.parse(newest) - BACK_MS) {
    return `The clock of the laptop says ${words(now)}, and the newest entry is of ${words(newest)}. ${MEND}`;
  }
  if (heldOn !== null && Math.abs(daysBetween(localDay(now, timeZone), heldOn)) > FAR_DAYS) {
    return `The clock of the laptop says ${words(now)}, and the sale that is being held is of ${shortDate(heldOn)}. ${MEND}`;
  }
  return null;
}

const MEND =
  'Set the clock right before anything is printed. Entries are kept in their order all the same, and nothing is lost.';
