/** Who asks, as far as the headers of a request say it. Needs no framework: entries come past it. */
import 'server-only';
import { STATIONS, type Station } from '#db/command.ts';
import type { Book } from '#db/open.ts';
import { hasWorkers, type Worker, workerById } from '#db/queries/workers.ts';
import { workerOfToken } from '#db/signing-in/sessions.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { tokenIn } from '../cookie.ts';
import { type HeaderList, lineOf, shutLine } from '../line.ts';
import { signInsOf } from '../sign-ins.ts';

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
export function callerOf(book: Book, asked: HeaderList, stations: readonly Station[] = STATIONS): Result<Caller> {
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
