import 'server-only';
import { setImmediate as others } from 'node:timers/promises';
import type { Book } from '#db/open.ts';
import { type InPieces, readOn } from '#db/queries/kept-pieces.ts';

/** After so many milliseconds whoever else asks something is answered first. */
const AT_A_TIME_MS = 20;

/**
 * Has what is kept in pieces whole, and lets everybody else come in between: of a large sale all of them take a second
 * after a start, and one or two after an entry.
 */
export async function madeReady<S>(book: Book, pieces: InPieces<S>): Promise<void> {
  let from = performance.now();
  while (readOn(book, pieces) === undefined) {
    if (performance.now() - from < AT_A_TIME_MS) continue;
    await others();
    from = performance.now();
  }
}
