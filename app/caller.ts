import 'server-only';
import { headers } from 'next/headers';
import { STATIONS, type Station } from '#db/command.ts';
import type { Book } from '#db/open.ts';
import { hasWorkers, type Worker, workerById } from '#db/queries/workers.ts';
import { workerOfToken } from '#db/signing-in/sessions.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { theBook } from './book.ts';
import { tokenIn } from './cookie.ts';
import { type HeaderList, lineOf, shutLine } from './line.ts';
import { signInsOf } from './sign-ins.ts';
import { notOurs } from './wire.ts';

const NOBODY_YET = refuse('signed_out', 'Nobody is entered yet: enter the first worker on the machine itself.');

/** Who asks: the name that the log will carry, and where they may work. */
export interface Caller {
  readonly worker: string;
  /** Nothing while the book has no workers, and the machine's own table does everything. */
  readonly id: number | undefined;
  readonly stations: readonly Station[];
}

/** The worker who is signed in on the device that asks, or undefined. */
export async function signedIn(): Promise<Worker | undefined> {
  return workerAsking(await theBook(), await headers());
}

function workerAsking(book: Book, asked: HeaderList): Worker | undefined {
  const token = tokenIn(asked, lineOf(asked).secure);
  if (token === undefined) return undefined;
  const id = workerOfToken({ book, store: signInsOf(book) }, token, Date.now());
  const worker = id === undefined ? undefined : workerById(book, id);
  return worker?.hasLeft ? undefined : worker;
}

/**
 * Lets a request pass that comes from one of these stations; otherwise refuses with `signed_out` or `not_allowed`.
 * A book in which nobody was entered yet is open to whoever sits at the machine: the first worker closes it.
 */
export async function callerAt(stations: readonly Station[] = STATIONS): Promise<Result<Caller>> {
  return callerOf(await theBook(), await headers(), stations);
}

/** The same of a request with these headers. */
export function callerOf(book: Book, asked: HeaderList, stations: readonly Station[]): Result<Caller> {
  const shut = shutLine(book, asked);
  if (shut) return shut;
  if (!hasWorkers(book)) return lineOf(asked).fromMachine ? accept(atTheMachine(asked)) : NOBODY_YET;
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

function atTheMachine(asked: HeaderList): Caller {
  return { worker: ownName(asked), id: undefined, stations: STATIONS };
}

/** The book for a request of one of these stations; the only way for a route of the staff to come by it. */
export async function staffBook(stations?: readonly Station[]): Promise<Result<Book>> {
  const caller = await callerAt(stations);
  return caller.ok ? accept(await theBook()) : caller;
}

/** What a table calls itself while nobody can sign in. */
function ownName(asked: HeaderList): string {
  const name = readable(asked.get('x-worker') ?? '')
    .trim()
    .slice(0, 80);
  return name === '' ? 'this table' : name;
}

function readable(encoded: string): string {
  try {
    return decodeURIComponent(encoded);
  } catch {
    return '';
  }
}

/** Lets an act of the office pass that needs no input, from our own pages only. */
export async function officeAct(request: Request): Promise<Result<Caller>> {
  return (await notOurs(request)) ?? callerAt(['office']);
}
