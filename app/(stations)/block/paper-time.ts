/**
 * The moment that a time of day on paper means: the last time the clock on the wall showed it.
 * Reads `14:05`, `1405` and `905`; null for anything else. `nowMs` in milliseconds; the day is the reader's own.
 */
export function paperTime(typed: string, nowMs: number): string | null {
  const [, hours = '', minutes = ''] = /^(\d{1,2}):?(\d\d)$/.exec(typed.trim()) ?? [];
  const [hour, minute] = [Number.parseInt(hours, 10), Number.parseInt(minutes, 10)];
  if (!(hour <= 23 && minute <= 59)) return null;
  const moment = new Date(nowMs);
  moment.setHours(hour, minute, 0, 0);
  if (moment.getTime() > nowMs) moment.setDate(moment.getDate() - 1);
  return moment.toISOString();
}

/** `14:05` of a moment, on the reader's own clock: as `paperTime` reads it, whatever the clock of the browser shows. */
export const asOnPaper = (at: string): string => new Date(at).toTimeString().slice(0, 5);
