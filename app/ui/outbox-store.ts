/** Where the outbox lies: one store a browser, which all its tabs share, with a lease that says which tab sends. */
import type { Station } from '#db/book/command.ts';
import type { CommandName } from '#db/commands.ts';
import type { Refusal } from '#lib/result/result.ts';
import type { TypedInput } from './text-field.tsx';

export interface Stored {
  /** The order in which entries were made, given by the store. */
  readonly id?: number;
  readonly key: string;
  readonly station: Station;
  /** What a person calls it, such as `Lot 12`. */
  readonly label: string;
  /** Who typed it; empty while nobody is entered in the book. */
  readonly worker?: string;
  /** For which book it was typed; empty while that has no line. */
  readonly book?: string;
  /** The book with the epoch in which the page was drawn, such as `3f9a…:2`. */
  readonly page?: string;
  readonly refusal?: Refusal;
}

/** An entry of one of these commands, with the input that belongs to it: asking for `command` says what `input` is. */
export type Entry<N extends CommandName = CommandName> = {
  readonly [C in N]: Stored & { readonly command: C; readonly input: TypedInput<C> };
}[N];

/** The tab that sends, and how often it has said so. No time of day: a clock may be wrong, or be set meanwhile. */
interface Lease {
  readonly holder: string;
  readonly beat: number;
}

/** A tab that has said nothing for so long was closed or put to sleep, and gives way to the others. */
const SILENT_MS = 4000;
const SENDER = 'sender';

let database: Promise<IDBDatabase> | undefined;

function open(): Promise<IDBDatabase> {
  database ??= new Promise<IDBDatabase>((resolve, reject) => {
    const asked = indexedDB.open('peltry-outbox', 2);
    asked.onupgradeneeded = ({ oldVersion }) => {
      const made = asked.result;
      if (oldVersion < 1) made.createObjectStore('entries', { keyPath: 'id', autoIncrement: true });
      made.createObjectStore('lease');
    };
    asked.onerror = () => reject(asked.error);
    asked.onsuccess = () => {
      const opened = asked.result;
      // Another tab with newer code waits for this one to let go.
      opened.onversionchange = () => {
        opened.close();
        database = undefined;
      };
      resolve(opened);
    };
  }).catch((trouble: unknown) => {
    // A browser that could not open it now may open it later.
    database = undefined;
    throw trouble;
  });
  return database;
}

type What = readonly ['entries' | 'lease', IDBTransactionMode, IDBTransactionOptions?];
/** On the disk, and not only on its way there, where the browser can wait for that: a power cut takes the rest. */
const ENTRIES: What = ['entries', 'readwrite', { durability: 'strict' }];
const THE_LEASE: What = ['lease', 'readwrite'];

/**
 * One transaction: a first request, and what is done with its answer. It is done when the transaction is complete, and
 * not before: a browser that runs out of space takes back what a request has said. Every failure is a rejection.
 */
async function done<T>(
  what: What,
  ask: (store: IDBObjectStore) => IDBRequest<T>,
  then?: (answer: T, store: IDBObjectStore) => void,
): Promise<T> {
  const transaction = (await open()).transaction(...what);
  return new Promise((resolve, reject) => {
    const store = transaction.objectStore(what[0]);
    transaction.onabort = () => reject(transaction.error);
    const request = ask(store);
    transaction.oncomplete = () => resolve(request.result);
    request.onsuccess = () => {
      try {
        then?.(request.result, store);
      } catch (trouble) {
        reject(trouble);
        transaction.abort();
      }
    };
  });
}

/** Every entry in the order it was made, refused ones too. */
export function allEntries(): Promise<Entry[]> {
  return done<Entry[]>(['entries', 'readonly'], (entries) => entries.getAll());
}

export function addEntry(entry: Entry): Promise<unknown> {
  return done(ENTRIES, (entries) => entries.add(entry));
}

export function removeEntry(id: number): Promise<unknown> {
  return done(ENTRIES, (entries) => entries.delete(id));
}

/** Marks an entry as refused, unless another tab has taken it out meanwhile. */
export function markRefused(id: number, refusal: Refusal): Promise<unknown> {
  return done<Entry | undefined>(
    ENTRIES,
    (entries) => entries.get(id),
    (entry, entries) => entry && entries.put({ ...entry, refusal }),
  );
}

/** The beat of another tab that was heard last, and when, on this tab's own clock, which only goes forward. */
let heard: string | undefined;
let heardAt = 0;

/** Takes or renews the lease for this tab; false while another tab holds it. */
export async function takeLease(holder: string): Promise<boolean> {
  let free = false;
  await done<Lease | undefined>(
    THE_LEASE,
    (kept) => kept.get(SENDER),
    (lease, kept) => {
      const now = performance.now();
      const beat = JSON.stringify(lease);
      if (beat !== heard) heardAt = now;
      heard = beat;
      free = !lease || lease.holder === holder || now - heardAt > SILENT_MS;
      if (free) kept.put({ holder, beat: (lease?.beat ?? 0) + 1 }, SENDER);
    },
  );
  return free;
}

export function giveLeaseBack(holder: string): Promise<unknown> {
  return done<Lease | undefined>(
    THE_LEASE,
    (kept) => kept.get(SENDER),
    (lease, kept) => lease?.holder === holder && kept.delete(SENDER),
  );
}
