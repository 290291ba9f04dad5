/** How a moment is said to somebody in the hall, by the clock on its wall: the machine stands there. */

const TIME = new Intl.DateTimeFormat('en-US', { hour: 'numeric', minute: '2-digit' });
const DAY = new Intl.DateTimeFormat('en-US', { year: 'numeric', month: 'short', day: 'numeric' });

/** `at 5:27 PM`, and of another day than `now` `on Nov 21, 2026 at 5:27 PM`. Both are ISO 8601 moments. */
export function momentInWords(moment: string, now: string): string {
  const [then, today] = [new Date(moment), new Date(now)];
  // Newer tables of the language have a narrow space before AM and PM, which not every typeface carries.
  const time = TIME.format(then).replace(/\s/g, ' ');
  const day = DAY.format(then);
  return day === DAY.format(today) ? `at ${time}` : `on ${day} at ${time}`;
}
