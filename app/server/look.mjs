// The book's file is looked through for damage by a thread of its own, while the application is being loaded.
import { Worker } from 'node:worker_threads';

/**
 * What is found is in `found` when `done` is over: `ok`, or the first thing that is wrong; nothing where there is no
 * file, or it cannot be read as one: whoever opens it then says why.
 */
export function lookThrough(file) {
  const look = { file, found: undefined };
  look.done = new Promise((resolve) => {
    const worker = new Worker(new URL('./look-worker.mjs', import.meta.url), { workerData: file });
    worker.once('message', (found) => Object.assign(look, { found }));
    worker.once('error', resolve);
    worker.once('exit', resolve);
  });
  return look;
}
