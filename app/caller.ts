import 'server-only';
import { cookies, headers } from 'next/headers';
import { STATIONS, type Station } from '#db/command.ts';
import type { Book } from '#db/open.ts';
import { hasWorkers, type Worker, workerById } from '#db/queries/workers.ts';
import { workerOfToken } from '#db/signing-in/sessions.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { theBook } from './book.ts';
import { tokenIn } from './cookie.ts';
import { lineOf, shutLine } from './line.ts';
import { theSignIns } from './sign-ins.ts';
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
  const token = tokenIn(await cookies(), lineOf(await headers()).secure);
  if (token === undefined) return undefined;
  const id = workerOfToken(await theSignIns(), token, Date.now());
  const worker = id === undefined ? undefined : workerById(await theBook(), id);
  return worker?.hasLeft ? undefined : worker;
}

/**
 * Lets a request pass that comes from one of these stations; otherwise refuses with `signed_out` or `not_allowed`.
 * A book in which nobody was entered yet is open to whoever sits at the machine: the first worker closes it.
 */
export async function callerAt(stations: readonly Station[] = STATIONS): Promise<Result<Caller>> {
  const book = await theBook();
  const asked = await headers();
  const shut = shutLine(book, asked);
  if (shut) return shut;
  if (!hasWorkers(book)) return lineOf(asked).fromMachine ? accept(await atTheMachine()) : NOBODY_YET;
  const worker = await signedIn();
  if (!worker) return refuse('signed_out', 'Nobody is signed in on this device: sign in, nothing typed is lost.');
  if (!stations.some((station) => worker.stations.includes(station))) {
    return refuse(
      'not_allowed',
      `This is for: ${stations.join(', ')}. Ask the office to give ${worker.name} the station.`,
    );
  }
  return accept({ worker: worker.name, id: worker.id, stations: worker.stations });
}

async function atTheMachine(): Promise<Caller> {
  return { worker: await ownName(), id: undefined, stations: STATIONS };
}

/** The book for a request of one of these stations; the only way for a route of the staff to come by it. */
export async function staffBook(stations?: readonly Station[]): Promise<Result<Book>> {
  const caller = await callerAt(stations);
  return caller.ok ? accept(await theBook()) : caller;
}

/** What a table calls itself while nobody can sign in. */
async function ownName(): Promise<string> {
  const named = (await headers()).get('x-worker') ?? '';
  const name = readable(named).trim().slice(0, 80);
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
