/**
 * Settlement sheets as one PDF. A worker thread draws them, because drawing a page stops whoever draws it for some
 * 30 ms, and in the server that would be the clerk at the Block.
 */
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { SettlementSheet } from '#lib/sheet/model.ts';
import type { PaperSize } from './look.ts';
import type { Word, Work } from './messages.ts';

export interface RenderOptions {
  readonly size: PaperSize;
  /** Told from time to time how many of the sheets are done. */
  readonly onProgress?: (done: number, of: number) => void;
}

/**
 * Draws the sheets in the order given, each beginning on a page of its own.
 * @returns the bytes of one PDF. @throws RangeError without sheets; Error naming the seller numbers when one cannot be drawn.
 */
export async function renderSheets(
  sheets: readonly SettlementSheet[],
  { size, onProgress }: RenderOptions,
): Promise<Uint8Array> {
  if (sheets.length === 0) throw new RangeError('there is no sheet to draw');
  const work: Work = { sheets, size };
  const env = { ...process.env, NODE_ENV: 'production' };
  const worker = new Worker(workerFile(), { name: 'papers', workerData: work, env });
  try {
    return await bytesFrom(worker, (done) => onProgress?.(done, sheets.length));
  } finally {
    await worker.terminate();
  }
}

function bytesFrom(worker: Worker, onProgress: (done: number) => void): Promise<Uint8Array> {
  return new Promise((finish, fail) => {
    worker.on('message', (word: Word) => {
      if (word.kind === 'progress') onProgress(word.done);
      else if (word.kind === 'finished') finish(word.bytes);
      else fail(new Error(word.message));
    });
    worker.on('error', fail);
    worker.on('exit', (code) => fail(new Error(`The paper worker ended early, with code ${code}.`)));
  });
}

/** The server's bundle moves this module but not the worker, so it is looked for from where the program was started. */
function workerFile(): string {
  const fromHere = resolve(import.meta.dirname ?? '.', 'worker.mjs');
  return existsSync(fromHere) ? fromHere : join(process.cwd(), 'app', 'papers', 'worker.mjs');
}
