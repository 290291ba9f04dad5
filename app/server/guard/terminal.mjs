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
  /** How often each kind came and was not printed. */
  let kinds = new Map();
  const turnOver = () => {
    if (now() - since < EVERY_MS) return;
    const before = kinds;
    kinds = new Map();
    since = now();
    for (const [kind, times] of before) if (times > 0) print(`${kind} (and ${times} more times)`);
  };
  return (...said) => {
    turnOver();
    const kind = kindOf(said);
    const times = kinds.get(kind);
    if (times !== undefined) return void kinds.set(kind, times + 1);
    if (kinds.size < MOST_KINDS) {
      kinds.set(kind, 0);
      return void print(...said);
    }
    kinds.set('Other faults', (kinds.get('Other faults') ?? 0) + 1);
  };
}

/** The first line, with its figures left out: a fault may name an address that somebody made up. */
function kindOf(said) {
  const first = said.map((one) => (one instanceof Error ? `${one.name}: ${one.message}` : String(one))).join(' ');
  return first.trim().split('\n', 1)[0].replace(/\d+/g, '…').slice(0, 100);
}
