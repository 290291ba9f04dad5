/** A browser's storage that fails at a call of choice, in each of the ways in which a real one does. */

/**
 * `throws` at once, `fails` the request, `aborts` the transaction behind a request that succeeded, `silent` never answers.
 */
export const WAYS = ['throws', 'fails', 'aborts', 'silent'] as const;
export type Way = (typeof WAYS)[number];

export interface Failing {
  /** The call that fails, counted from 1; 0 for none. */
  readonly at: number;
  readonly way: Way;
  /** Whether all calls behind it fail too. */
  readonly onwards: boolean;
}

type Key = number | string;
type Row = Record<string, unknown>;

interface Asked {
  result?: unknown;
  error: Error | null;
  onsuccess?: () => void;
  onerror?: () => void;
  onupgradeneeded?: (event: { oldVersion: number }) => void;
}

const FULL = new DOMException('The disk is full.', 'QuotaExceededError');

export class FailingStorage {
  calls = 0;
  readonly stores: Record<string, Map<Key, unknown>> = { entries: new Map(), lease: new Map() };
  /** Into which store something was written, and how surely. */
  readonly durable = new Set<string>();
  private nextId = 1;

  constructor(public failing: Failing) {}

  /** What an earlier page of this browser has left behind. */
  entries(): Row[] {
    return [...(this.stores.entries?.values() ?? [])] as Row[];
  }

  /** The next call: the way in which it fails, or undefined. */
  private next(): Way | undefined {
    this.calls += 1;
    const { at, way, onwards } = this.failing;
    const fails = at > 0 && (onwards ? this.calls >= at : this.calls === at);
    if (fails && way === 'throws') throw FULL;
    return fails ? way : undefined;
  }

  open(): Asked {
    const fails = this.next();
    const asked: Asked = { error: null };
    queueMicrotask(() => {
      if (fails === 'silent') return;
      if (fails) {
        asked.error = FULL;
        return asked.onerror?.();
      }
      asked.result = {
        transaction: (name: string, mode: string, options?: { durability: string }) => {
          if (mode === 'readwrite') this.durable.add(`${name} ${options?.durability ?? 'default'}`);
          return this.transaction(name);
        },
        close: () => {},
      };
      asked.onsuccess?.();
    });
    return asked;
  }

  private transaction(name: string) {
    const rows = this.stores[name] ?? new Map();
    const before = new Map(rows);
    const made: { oncomplete?: () => void; onabort?: () => void; error: Error | null; abort: () => void } & Row = {
      error: null,
      abort: () => end('abort'),
      objectStore: () => store,
    };
    let open = 0;
    let ended = false;
    const end = (how: 'complete' | 'abort') => {
      if (ended) return;
      ended = true;
      if (how === 'complete') return made.oncomplete?.();
      made.error = FULL;
      rows.clear();
      for (const [key, row] of before) rows.set(key, row);
      made.onabort?.();
    };
    const ask = (act: () => unknown): Asked => {
      const fails = this.next();
      const asked: Asked = { error: null };
      open += 1;
      queueMicrotask(() => {
        if (ended || fails === 'silent') return;
        if (fails === 'fails') return end('abort');
        asked.result = act();
        asked.onsuccess?.();
        open -= 1;
        if (fails === 'aborts') end('abort');
        else if (open === 0) end('complete');
      });
      return asked;
    };
    const put = (row: unknown, key?: Key) => {
      const at = key ?? (row as { id?: number }).id ?? this.nextId++;
      rows.set(at, key === undefined ? { ...(row as Row), id: at } : row);
      return at;
    };
    const store = {
      getAll: () => ask(() => [...rows.values()]),
      get: (key: Key) => ask(() => rows.get(key)),
      add: (row: unknown) => ask(() => put(row)),
      put: (row: unknown, key?: Key) => ask(() => put(row, key)),
      delete: (key: Key) => ask(() => void rows.delete(key)),
    };
    return made;
  }
}
