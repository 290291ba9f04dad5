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
