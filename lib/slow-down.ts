/** How long an account waits after wrong passphrases: ever longer, but never for good. */

const FREE_TRIES = 3;
const LONGEST_WAIT_SECONDS = 60;

/**
 * The seconds to wait after so many wrong tries in a row. Three cost nothing, then 2, 4, 8 … up to a minute: a guesser
 * gets about 1,440 tries a day, and the worker whose name is misused waits a minute at most.
 */
export function waitSeconds(wrongInARow: number): number {
  if (wrongInARow <= FREE_TRIES) return 0;
  return Math.min(2 ** Math.min(wrongInARow - FREE_TRIES, 6), LONGEST_WAIT_SECONDS);
}
