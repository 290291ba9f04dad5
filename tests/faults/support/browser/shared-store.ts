/** A browser's IndexedDB, shared by its tabs, of which every call may go wrong in each of the ways of a real one. */
import type { Chance } from '#tests/faults/support/chance.ts';
import type { Clockwork, Life } from './clockwork.ts';

/**
 * `throws` at once; `fails` the request; `aborts` behind a request that succeeded; `silent` does nothing and never
 * answers; `mute` does it and never answers; `late` answers long after anybody waits for it.
 */
const WAYS = ['throws', 'fails', 'aborts', 'silent', 'mute', 'late'] as const;
type Way = (typeof WAYS)[number];

/** How the storage is just now. `full` refuses what is written only. */
export type StoreMood = 'good' | 'flaky' | 'full' | 'broken';

type Key = number | string;
type Rows = Map<Key, unknown>;
type Named = 'entries' | 'lease';

interface Asked {
  result?: unknown;
  error: Error | null;
  onsuccess?: () => void;
  onerror?: () => void;
}

interface Transaction {
  readonly life: Life;
  readonly name: Named;
  readonly pending: (() => void)[];
  rows: Rows;
  began: boolean;
  ended: boolean;
  said: { oncomplete?: () => void; onabort?: () => void; error: Error | null };
}

const FULL = new DOMException('The disk is full.', 'QuotaExceededError');
const FLAKY_ONE_IN = 6;

export class SharedStore {
  mood: StoreMood = 'good';
  readonly faults: Record<Way, number> = { throws: 0, fails: 0, aborts: 0, silent: 0, mute: 0, late: 0 };
  private readonly stores: Record<Named, Rows> = { entries: new Map(), lease: new Map() };
  private readonly queues: Record<Named, Transaction[]> = { entries: [], lease: [] };
  private nextId = 1;

  constructor(
    private readonly clock: Clockwork,
    private readonly below: Chance['below'],
  ) {}

  /** What one tab sees as `indexedDB`. */
  of(life: Life) {
    return { open: () => this.open(life) };
  }

  /** A tab is gone: what it had begun may have been written, and what it had not begun never is. */
  drop(life: Life): void {
    for (const name of ['entries', 'lease'] as const) {
      for (const one of this.queues[name].filter((own) => own.life === life)) this.end(one, this.below(2) === 0, false);
    }
  }

  private fate(writes: boolean): Way | undefined {
    const { mood } = this;
    const fails =
      mood === 'broken' || (mood === 'flaky' && this.below(FLAKY_ONE_IN) === 0) || (mood === 'full' && writes);
    if (!fails) return undefined;
    const way = mood === 'full' ? (['fails', 'aborts'] as const)[this.below(2)] : WAYS[this.below(WAYS.length)];
    if (way) this.faults[way] += 1;
    if (way === 'throws') throw FULL;
    return way;
  }

  /** Some milliseconds, or so many that nobody waits any more. */
  private delay(way: Way | undefined): number {
    return way === 'late' ? 1500 + this.below(12_000) : this.below(4);
  }

  private open(life: Life): Asked {
    const way = this.fate(false);
    const asked: Asked = { error: null };
    const answer = () => {
      if (way === 'silent' || way === 'mute') return;
      if (way === 'fails' || way === 'aborts') {
        asked.error = FULL;
        return asked.onerror?.();
      }
      asked.result = { transaction: (name: Named) => this.transaction(life, name), close: () => undefined };
      asked.onsuccess?.();
    };
    this.clock.after(this.delay(way), answer, life);
    return asked;
  }

  private transaction(life: Life, name: Named) {
    this.fate(false);
    const said: Transaction['said'] & { abort: () => void; objectStore: () => object } = {
      error: null,
      abort: () => this.end(one, false, true),
      objectStore: () => store,
    };
    const one: Transaction = { life, name, pending: [], rows: new Map(), began: false, ended: false, said };
    const ask = (writes: boolean, act: (rows: Rows) => unknown): Asked => {
      const way = this.fate(writes);
      const asked: Asked = { error: null };
      one.pending.push(() => this.answer(one, asked, { way, act }));
      if (one.pending.length === 1 && !one.began) {
        const queue = () => this.enqueue(one);
        if (way === 'late') this.clock.after(this.delay(way), queue, life);
        else queue();
      }
      return asked;
    };
    const put = (rows: Rows, row: unknown, key?: Key) => {
      const own = structuredClone(row) as { id?: number };
      const at = key ?? own.id ?? this.nextId++;
      rows.set(at, key === undefined ? { ...own, id: at } : own);
      return at;
    };
    const store = {
      getAll: () =>
        ask(false, (rows) =>
          structuredClone([...rows].sort(([a], [b]) => Number(a) - Number(b)).map(([, row]) => row)),
        ),
      get: (key: Key) => ask(false, (rows) => structuredClone(rows.get(key))),
      add: (row: unknown) => ask(true, (rows) => put(rows, row)),
      put: (row: unknown, key?: Key) => ask(true, (rows) => put(rows, row, key)),
      delete: (key: Key) => ask(false, (rows) => void rows.delete(key)),
    };
    return said;
  }

  /** One at a time in each store, as the browser has it. */
  private enqueue(one: Transaction): void {
    if (one.ended) return;
    this.queues[one.name].push(one);
    if (this.queues[one.name][0] === one) this.begin(one);
  }

  private begin(one: Transaction): void {
    one.began = true;
    one.rows = new Map(this.stores[one.name]);
    this.clock.after(this.delay(undefined), () => one.pending.shift()?.(), one.life);
  }

  private answer(
    one: Transaction,
    asked: Asked,
    { way, act }: { way?: Way | undefined; act(rows: Rows): unknown },
  ): void {
    if (one.ended) return;
    if (way === 'silent' || way === 'fails') {
      this.end(one, false, way === 'fails');
      return;
    }
    asked.result = act(one.rows);
    asked.onsuccess?.();
    if (one.ended) return;
    const next = one.pending.shift();
    const rest = way === 'aborts' ? () => this.end(one, false, true) : () => this.end(one, true, way !== 'mute');
    this.clock.after(this.delay(undefined), next ?? rest, one.life);
  }

  private end(one: Transaction, kept: boolean, isSaid: boolean): void {
    if (one.ended) return;
    one.ended = true;
    if (kept && one.began) this.stores[one.name] = one.rows;
    const queue = this.queues[one.name];
    const wasFirst = queue[0] === one;
    if (queue.includes(one)) queue.splice(queue.indexOf(one), 1);
    if (!kept) one.said.error = FULL;
    if (isSaid) (kept ? one.said.oncomplete : one.said.onabort)?.();
    const [next] = queue;
    if (wasFirst && next) this.begin(next);
  }
}
