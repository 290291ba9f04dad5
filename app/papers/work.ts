/** The worker's side: takes the work it was started with, and says how far it is. */
import { parentPort, workerData } from 'node:worker_threads';
import type { Word, Work } from './messages.ts';
import { renderPieces } from './pieces.ts';

function say(word: Word, transfer: ArrayBuffer[] = []): void {
  parentPort?.postMessage(word, transfer);
}

const { sheets, size } = workerData as Work;
try {
  const bytes = await renderPieces(sheets, { size, onProgress: (done) => say({ kind: 'progress', done }) });
  say({ kind: 'finished', bytes }, [bytes.buffer as ArrayBuffer]);
} catch (fault) {
  say({ kind: 'failed', message: fault instanceof Error ? fault.message : String(fault) });
}
