/** Whether a sign-in outlasts what was said of its worker since it began. */

export type WorkerChange =
  | { readonly kind: 'passphrase' }
  | { readonly kind: 'amended'; readonly stations: readonly string[]; readonly hasLeft: boolean };

/**
 * The stations of the worker after these changes, in the order in which they were said; null where one of them has
 * ended the sign-in: another passphrase, a station withdrawn, or having left. Coming back revives nothing.
 */
export function stationsAfter(stations: readonly string[], changes: readonly WorkerChange[]): readonly string[] | null {
  let now = stations;
  for (const change of changes) {
    if (change.kind === 'passphrase' || change.hasLeft) return null;
    if (now.some((station) => !change.stations.includes(station))) return null;
    now = change.stations;
  }
  return now;
}

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
