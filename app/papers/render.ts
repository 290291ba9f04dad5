/**
 * Papers as one PDF. A worker thread draws them, because drawing a page stops whoever draws it for some
 * 30 ms, and in the server that would be the clerk at the Block.
 */
import type { Worker } from 'node:worker_threads';
import type { Paper } from './kinds.ts';
import type { PaperSize } from './look.ts';
import type { Word, Work } from './messages.ts';
import { withWorker } from './workers.ts';

export interface RenderOptions {
  readonly size: PaperSize;
  /** Told from time to time how many of the sheets are done. */
  readonly onProgress?: (done: number, of: number) => void;
}

/**
 * Draws the papers in the order given, also of different kinds, each beginning on a page of its own.
 * @returns the bytes of one PDF. @throws RangeError without sheets; Error naming the papers of a piece when one cannot be drawn.
 */
export async function renderSheets(sheets: readonly Paper[], { size, onProgress }: RenderOptions): Promise<Uint8Array> {
  if (sheets.length === 0) throw new RangeError('there is no sheet to draw');
  const told = (done: number) => onProgress?.(done, sheets.length);
  return withWorker((worker) => drawnBy(worker, { sheets, size }, told));
}

/** A promise with its two ends in hand, as later versions of Node give by themselves. */
function promised<T>() {
  let resolve: (value: T) => void = () => {};
  let reject: (fault: Error) => void = () => {};
  const promise = new Promise<T>((finish, fail) => {
    resolve = finish;
    reject = fail;
  });
  return { promise, resolve, reject };
}

async function drawnBy(worker: Worker, work: Work, onProgress: (done: number) => void): Promise<Uint8Array> {
  const { promise, resolve: finish, reject: fail } = promised<Uint8Array>();
  const heard = (word: Word) => {
    if (word.kind === 'progress') onProgress(word.done);
    else if (word.kind === 'finished') finish(word.bytes);
    else fail(new Error(word.message));
  };
  const ended = (code: number) => fail(new Error(`The paper worker ended early, with code ${code}.`));
  worker.on('message', heard).on('error', fail).on('exit', ended);
  try {
    worker.postMessage(work);
    return await promise;
  } finally {
    worker.off('message', heard).off('error', fail).off('exit', ended);
  }
}
