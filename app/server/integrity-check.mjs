// A thread of its own checks the book's file for damage while the application is being loaded.
import { Worker } from 'node:worker_threads';

/**
 * Gives `ok`, or the first thing that is wrong; nothing where there is no file, or it cannot be read as one: whoever
 * opens it then says why.
 */
export function integrityCheck(file) {
  return new Promise((resolve) => {
    const worker = new Worker(new URL('./integrity-check-worker.mjs', import.meta.url), { workerData: file });
    let found;
    worker.once('message', (first) => {
      found = first;
    });
    worker.once('error', () => resolve(undefined));
    // Not before it has let go of the file.
    worker.once('exit', () => resolve(found));
  });
}
