/** Who asks, as far as the headers of a request say it. Needs no framework: entries come past it. */
import 'server-only';
import { STATIONS, type Station } from '#db/book/command.ts';
import type { Book } from '#db/book/open.ts';
import { type TroubleKind, troubleOfWriting } from '#db/book/trouble.ts';
import { holds, workerOfToken } from '#db/sign-in/sessions.ts';
import { openStore, type Store, storeInMemory } from '#db/sign-in/store.ts';
import { hasWorkers, type Worker, workerById } from '#db/worker/queries.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { connectionOf, type HeaderList, refuseConnection, tokenIn } from './connection.ts';
import { serverState } from './state.ts';

const NOBODY_YET = refuse('signed_out', 'Nobody is entered yet: enter the first worker on the machine itself.');

/** Who asks: the name that the log will carry, and where they may work. */
export interface Caller {
  readonly worker: string;
  /** Nothing while the book has no workers, and the machine's own table does everything. */
  readonly id: number | undefined;
  readonly stations: readonly Station[];
}

/** The worker who is signed in on the device that asks, or undefined. */
export function workerAsking(book: Book, asked: HeaderList): Worker | undefined {
  const token = tokenIn(asked);
  if (token === undefined) return undefined;
  const id = workerOfToken({ book, store: signInsOf(book) }, token, Date.now());
  const worker = id === undefined ? undefined : workerById(book, id);
  return worker?.hasLeft ? undefined : worker;
}

/**
 * Whether a stream may go on that somebody began who was signed in; always where nobody was, for the hall listens too.
 * The book is asked for each time: after a bad day another one may be open, or none.
 */
export function streamHolds(bookNow: () => Book | undefined, asked: HeaderList): () => boolean {
  const token = tokenIn(asked);
  const isIn = (book: Book) => token !== undefined && holds({ book, store: signInsOf(book) }, token, Date.now());
  const first = bookNow();
  if (!first || !isIn(first)) return () => true;
  return () => {
    const book = bookNow();
    return !book || isIn(book);
  };
}

/**
 * Lets a request pass that comes from one of these stations; otherwise refuses with `signed_out` or `not_allowed`.
 * A book in which nobody was entered yet is open to whoever sits at the machine: the first worker closes it.
 */
export function callerOf(book: Book, asked: HeaderList, stations: readonly Station[] = STATIONS): Result<Caller> {
  const shut = refuseConnection(book, asked);
  if (shut) return shut;
  if (!hasWorkers(book)) return connectionOf(asked).fromMachine ? accept(atTheMachine(asked)) : NOBODY_YET;
  const worker = workerAsking(book, asked);
  if (!worker) return refuse('signed_out', 'Nobody is signed in on this device: sign in, nothing typed is lost.');
  if (!stations.some((station) => worker.stations.includes(station))) {
    return refuse(
      'not_allowed',
      `This is for: ${stations.join(', ')}. Ask the office to give ${worker.name} the station.`,
    );
  }
  return accept({ worker: worker.name, id: worker.id, stations: worker.stations });
}

/** Who asks by what a table calls itself while nobody can sign in. */
function atTheMachine(asked: HeaderList): Caller {
  return { worker: nameAsked(asked) || 'this table', id: undefined, stations: STATIONS };
}

/** Who typed, as the browser says it; empty where it does not. */
export function nameAsked(asked: HeaderList): string {
  return readable(asked.get('x-worker') ?? '')
    .trim()
    .slice(0, 80);
}

function readable(encoded: string): string {
  try {
    return decodeURIComponent(encoded);
  } catch {
    return '';
  }
}

/** The open file of sign-ins of this process; on `globalThis` for the same reason as the book. */
const place = globalThis as typeof globalThis & { peltrySignIns?: { store: Store; inMemory: boolean } };

/** With these nothing can be written beside the book either. */
const WITHOUT_DISK: ReadonlySet<TroubleKind> = new Set<TroubleKind>(['full', 'read_only', 'disk']);

/** The sign-ins: in their file, or in memory while the disk takes nothing, so that the staff can still read. */
export function signInsOf({ file }: Book): Store {
  const { trouble } = serverState();
  const inMemory = trouble !== null && WITHOUT_DISK.has(trouble.kind);
  const before = place.peltrySignIns;
  if (before?.inMemory === inMemory) return before.store;
  const store = inMemory ? storeInMemory(file) : openStore(file);
  before?.store.close();
  place.peltrySignIns = { store, inMemory };
  return store;
}

/** Does something that writes to the sign-ins. Where the disk fails at it, writing stops, and it is done in memory. */
export async function withSignIns<T>(book: Book, work: (store: Store) => T | Promise<T>): Promise<T> {
  try {
    return await work(signInsOf(book));
  } catch (fault) {
    noteTrouble(fault);
    return work(signInsOf(book));
  }
}

/** The same synchronously, so that no other request comes between an entry of the book and what must follow it. */
export function withSignInsNow<T>(book: Book, work: (store: Store) => T): T {
  try {
    return work(signInsOf(book));
  } catch (fault) {
    noteTrouble(fault);
    return work(signInsOf(book));
  }
}

/** Stops writing where the disk failed for the first time; every other fault goes on. */
function noteTrouble(fault: unknown): void {
  const trouble = troubleOfWriting(fault);
  if (!trouble || serverState().trouble) throw fault;
  serverState().trouble = trouble;
}
