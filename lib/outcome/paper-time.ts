/** A time of day that was typed from paper lies within the selling, or both things that it can mean are told. */
import { momentInWords, timeInWords } from '#lib/date/date.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';

export interface PaperTimeContext {
  /** ISO 8601, UTC: when it is entered. */
  readonly now: string;
  /** ISO 8601, UTC: no lot of the sale was called before it. */
  readonly since: string;
  readonly timeZone: string;
}

/**
 * Decides whether the hammer can have fallen at `hammerAt` (ISO 8601, UTC). The clerk types a time of day: the Block
 * takes it for the last time that the clock showed it, which for one still to come today is yesterday.
 */
export function decidePaperTime({ now, since, timeZone }: PaperTimeContext, hammerAt: string): Result<null> {
  if (Date.parse(hammerAt) >= Date.parse(since)) return accept(null);
  const time = timeInWords(hammerAt, timeZone);
  const message = `${time} today is still to come: it is ${timeInWords(now, timeZone)}. ${momentInWords(hammerAt, timeZone)} was before the sale began. Which time stands on the paper?`;
  return refuse('malformed', message, 'hammerAt');
}
