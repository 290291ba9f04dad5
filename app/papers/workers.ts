/**
 * The paper workers of this process: two at the most, so that one sheet need not wait behind a pile of them and a
 * hall full of requests cannot start fifty. Starting one takes most of a second, so each is kept for a while.
 */
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { Worker } from 'node:worker_threads';

const MOST = 2;
const KEPT_MS = 60_000;

interface Workers {
  readonly idle: { readonly worker: Worker; readonly release: () => void }[];
  readonly waiting: (() => void)[];
  busy: number;
}

/** Pages and route handlers of one server get a module each, so what they share hangs on `globalThis`. */
const shared = globalThis as { peltryPaperWorkers?: Workers };

function workers(): Workers {
  shared.peltryPaperWorkers ??= { idle: [], waiting: [], busy: 0 };
  return shared.peltryPaperWorkers;
}

/** Lends a worker for one piece of work, in the order asked. A worker with which something went wrong is not kept. */
export async function withWorker<T>(use: (worker: Worker) => Promise<T>): Promise<T> {
  await aTurn();
  const worker = takeIdle() ?? start();
  try {
    const result = await use(worker);
    keep(worker);
    return result;
  } catch (fault) {
    await worker.terminate();
    throw fault;
  } finally {
    nextTurn();
  }
}

async function aTurn(): Promise<void> {
  const all = workers();
  if (all.busy < MOST) all.busy += 1;
  else await new Promise<void>((go) => all.waiting.push(go));
}

/** Hands the turn to whoever waits longest; only with nobody waiting does it become free. */
function nextTurn(): void {
  const all = workers();
  const next = all.waiting.shift();
  if (next) next();
  else all.busy -= 1;
}

/** Left to itself a worker lets its heap grow with the pile, although each piece is let go of; told a limit, it tidies up. */
const HEAP = { maxOldGenerationSizeMb: 256, maxYoungGenerationSizeMb: 16 };

function start(): Worker {
  const env = { ...process.env, NODE_ENV: 'production' as const };
  return new Worker(workerFile(), { name: 'papers', env, resourceLimits: HEAP });
}

function takeIdle(): Worker | undefined {
  const kept = workers().idle.pop();
  kept?.release();
  return kept?.worker;
}

/** An idle worker does not keep the process alive, and goes after a while. */
function keep(worker: Worker): void {
  const forget = () => {
    const { idle } = workers();
    const at = idle.findIndex((kept) => kept.worker === worker);
    if (at >= 0) idle.splice(at, 1)[0]?.release();
  };
  const end = () => {
    forget();
    void worker.terminate();
  };
  const until = setTimeout(end, KEPT_MS).unref();
  // Only our own listeners come off: the worker hears its messages through some of its own.
  const release = () => {
    clearTimeout(until);
    worker.off('error', forget).off('exit', forget).ref();
  };
  worker.on('error', forget).on('exit', forget).unref();
  workers().idle.push({ worker, release });
}

/** The server's bundle moves this module but not the worker, so it is looked for from where the program was started. */
function workerFile(): string {
  const fromHere = resolve(import.meta.dirname ?? '.', 'worker.mjs');
  return existsSync(fromHere) ? fromHere : join(process.cwd(), 'app', 'papers', 'worker.mjs');
}
