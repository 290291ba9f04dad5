// The terminal is for whoever runs the sale: nobody in the hall may fill it with one line again and again.
const EVERY_MS = 60_000;
/** Kinds of faults that are printed in a minute; more kinds than these are counted together. */
const MOST_KINDS = 20;

/**
 * Wraps a printing function: what begins alike is printed once a minute at most, and then how often it came.
 * @param {(...said: unknown[]) => void} print
 * @param {() => number} now in milliseconds
 */
export function onceAMinute(print, now = Date.now) {
  let since = now();
  /** Of each kind: how often it came and was not printed, and the newest of those, word for word. */
  let kinds = new Map();
  const turnOver = () => {
    if (now() - since < EVERY_MS) return;
    const before = kinds;
    kinds = new Map();
    since = now();
    for (const { times, newest } of before.values()) if (times > 0) print(moreTimes(newest, times));
  };
  return (...said) => {
    turnOver();
    const first = firstLine(said);
    const kind = kindOf(first);
    const known = kinds.get(kind);
    if (known) return void Object.assign(known, { times: known.times + 1, newest: first });
    if (kinds.size < MOST_KINDS) {
      kinds.set(kind, { times: 0, newest: first });
      return void print(...said);
    }
    const others = kinds.get(OTHERS) ?? { times: 0, newest: OTHERS };
    kinds.set(OTHERS, { ...others, times: others.times + 1 });
  };
}

const OTHERS = 'Other faults';
const moreTimes = (newest, times) => `${newest} (${newest === OTHERS ? 'and' : 'the last of'} ${times} more times)`;

const firstLine = (said) =>
  said
    .map((one) => (one instanceof Error ? `${one.name}: ${one.message}` : String(one)))
    .join(' ')
    .trim()
    .split('\n', 1)[0];

/** What counts as alike: figures left out, as a fault may name an address that somebody made up, but never in the name of a book or a copy. */
function kindOf(first) {
  const names = first.match(/[^\s“”"']+\.book\b/g) ?? [];
  return [first.replace(/\d+/g, '…').slice(0, 100), ...names].join(' ').slice(0, 300);
}
