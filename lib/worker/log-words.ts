/** A log entry in words: what the command is called, and the parts of its input that a person asks about. */

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
