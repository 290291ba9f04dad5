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

/** So many wrong tries cost nothing. */
export const FREE_TRIES = 3;
const LONGEST_WAIT_SECONDS = 60;

/**
 * The seconds to wait after so many wrong tries in a row. Three cost nothing, then 2, 4, 8 … up to a minute: a guesser
 * gets about 1,440 tries a day, and the worker whose name is misused waits a minute at most.
 */
export function waitSeconds(wrongInARow: number): number {
  if (wrongInARow <= FREE_TRIES) return 0;
  return Math.min(2 ** Math.min(wrongInARow - FREE_TRIES, 6), LONGEST_WAIT_SECONDS);
}

type Fields = Readonly<Record<string, unknown>>;

export interface LogEntry {
  /** What the command is called in the log: each command brings it with it. */
  readonly label: string;
  readonly input: unknown;
  readonly result: unknown;
}

/** The parts that are told, in this order: the name of the field, and the words before its value. */
const PARTS: readonly (readonly [string, string])[] = [
  ['lotNo', 'lot'],
  ['lots', 'lots'],
  ['stage', ''],
  ['name', ''],
  ['sellerNo', 'seller number'],
  ['toSellerNo', 'to seller number'],
  ['kind', ''],
  ['direction', ''],
  ['goods', ''],
  ['count', 'count'],
  ['weight', 'weight'],
  ['buyerNo', 'buyer'],
  ['price', 'at'],
  ['amount', 'of'],
  ['method', 'by'],
  ['number', 'number'],
  ['reason', 'because:'],
];

/** One sentence without a full stop, such as `Outcome: lot 12, sold, buyer 10, at 7.25`. */
export function logEntryInWords({ label, input, result }: LogEntry): string {
  const said = { ...plain(result), ...plain(input) };
  const parts = PARTS.flatMap(([field, before]) => {
    const value = worded(said[field]);
    return value === '' ? [] : [before === '' ? value : `${before} ${value}`];
  });
  return parts.length === 0 ? label : `${label}: ${parts.join(', ')}`;
}

function plain(value: unknown): Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Fields) : {};
}

function worded(value: unknown): string {
  if (typeof value === 'string') return value.trim();
  if (typeof value === 'number') return String(value);
  const words = Array.isArray(value) ? value.map(worded) : [];
  if (words.some((word) => word === '')) return '';
  const last = words.length - 1;
  return last < 1 ? words.join() : `${words.slice(0, last).join(', ')} and ${words[last]}`;
}
