/** Whether a laptop's clock can be right, seen from what the book holds. */
import { daysBetween } from './dates.ts';
import { dayAndTimeInWords, localDay } from './local-day.ts';

interface ClockGround {
  /** ISO 8601 time in UTC: what the laptop says. */
  readonly now: string;
  /** The time of the newest log line, or null where there is none. */
  readonly newest: string | null;
  /** The day of the sale that is being held, or null where none is. */
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
export function clockWarning({ now, newest, heldOn, timeZone }: ClockGround): string | null {
  const words = (moment: string) => dayAndTimeInWords(moment, timeZone);
  if (newest !== null && Date.parse(now) < Date.parse(newest) - BACK_MS) {
    return `The clock of the laptop says ${words(now)}, and the newest entry is of ${words(newest)}. ${MEND}`;
  }
  if (heldOn !== null && Math.abs(daysBetween(localDay(now, timeZone), heldOn)) > FAR_DAYS) {
    return `The clock of the laptop says ${words(now)}, and the sale that is being held is of ${heldOn}. ${MEND}`;
  }
  return null;
}

const MEND =
  'Set the clock right before anything is printed. Entries are kept in their order all the same, and nothing is lost.';
