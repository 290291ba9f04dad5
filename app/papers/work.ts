/** The worker's side: takes one piece of work after another, and says of each how far it is. */
import { parentPort } from 'node:worker_threads';
import type { Word, Work } from './messages.ts';
import { renderPieces } from './pieces.ts';

function say(word: Word, transfer: ArrayBuffer[] = []): void {
  parentPort?.postMessage(word, transfer);
}

async function take({ sheets, size }: Work): Promise<void> {
  try {
    const bytes = await renderPieces(sheets, { size, onProgress: (done) => say({ kind: 'progress', done }) });
    say({ kind: 'finished', bytes }, [bytes.buffer as ArrayBuffer]);
  } catch (fault) {
    say({ kind: 'failed', message: fault instanceof Error ? fault.message : String(fault) });
  }
}

parentPort?.on('message', take);
