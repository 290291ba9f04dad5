/** Where the outbox lies: one store a browser, which all its tabs share, with a lease that says which tab sends. */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Refusal } from '#lib/result.ts';

export interface Entry {
  /** The order in which entries were made, given by the store. */
  readonly id?: number;
  readonly key: string;
  readonly station: string;
  readonly command: string;
  readonly input: unknown;
  /** What a person calls it, such as `Lot 12`. */
  readonly label: string;
  readonly refusal?: Refusal;
}

interface Lease {
  readonly holder: string;
  /** Milliseconds on this machine's clock. */
  readonly until: number;
}

interface Store extends DBSchema {
  entries: { key: number; value: Entry };
  lease: { key: string; value: Lease };
}

/** A tab that was closed or put to sleep gives way to the others after this time. */
const LEASE_MS = 4000;
const THE_LEASE = 'sender';

let database: Promise<IDBPDatabase<Store>> | undefined;

function store(): Promise<IDBPDatabase<Store>> {
  database ??= openDB<Store>('peltry-outbox', 2, {
    upgrade(made, from) {
      if (from < 1) made.createObjectStore('entries', { keyPath: 'id', autoIncrement: true });
      made.createObjectStore('lease');
    },
    // Another tab with newer code waits for this one to let go.
    blocking: (_from, _to, event) => (event.target as IDBDatabase).close(),
  });
  return database;
}

/** Every entry in the order it was made, refused ones too. */
export async function allEntries(): Promise<Entry[]> {
  return (await store()).getAll('entries');
}

export async function addEntry(entry: Entry): Promise<void> {
  await (await store()).add('entries', entry);
}

export async function removeEntry(id: number): Promise<void> {
  await (await store()).delete('entries', id);
}

/** Marks an entry as refused, unless another tab has taken it out meanwhile. */
export async function markRefused(id: number, refusal: Refusal): Promise<void> {
  const writing = (await store()).transaction('entries', 'readwrite');
  const entry = await writing.store.get(id);
  if (entry) await writing.store.put({ ...entry, refusal });
  await writing.done;
}

/** Takes or renews the lease for this tab; false while another tab holds it. */
export async function takeLease(holder: string): Promise<boolean> {
  const writing = (await store()).transaction('lease', 'readwrite');
  const lease = await writing.store.get(THE_LEASE);
  const free = !lease || lease.holder === holder || lease.until < Date.now();
  if (free) await writing.store.put({ holder, until: Date.now() + LEASE_MS }, THE_LEASE);
  await writing.done;
  return free;
}

export async function giveLeaseBack(holder: string): Promise<void> {
  const writing = (await store()).transaction('lease', 'readwrite');
  if ((await writing.store.get(THE_LEASE))?.holder === holder) await writing.store.delete(THE_LEASE);
  await writing.done;
}
