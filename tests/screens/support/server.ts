import { type ChildProcess, type StdioOptions, spawn } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { HALL_HOST } from './chromium.ts';
import { freePort } from './http.ts';
import { officeAllowsOpenLine } from './worker.ts';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const SERVE = `${ROOT}app/server/serve.mjs`;
const SERVE_MANY = `${ROOT}tests/screens/support/serve-many.mjs`;
/** Both end what hangs, and are no claim of speed. */
const READY_WITHIN_MS = 120_000;
const GONE_WITHIN_MS = 60_000;
/** No test of a screen waits for a copy of its book, or for the processor that one takes. */
const QUIET = { PELTRY_BACKUP_MINUTES: '0' };

/** A test run that is broken off leaves no server behind. */
const running = new Set<ChildProcess>();
process.once('exit', () => {
  for (const child of running) child.kill('SIGKILL');
});

export interface ServerOptions {
  /** The book's file; the application makes it where there is none. */
  readonly bookFile: string;
  readonly port?: number;
  readonly env?: Readonly<Record<string, string>>;
  /** Whether the office has allowed the hall's name and the open line; it has where nothing else is said. */
  readonly openLine?: boolean;
}

export interface Server {
  /** `http://127.0.0.1:<port>`, a secure context for the browser. */
  readonly url: string;
  /** `http://hall.test:<port>`, a plain name as on the hall's Wi-Fi: no secure context. */
  readonly hallUrl: string;
  /** What the server printed so far, across restarts. */
  readonly log: () => string;
  /** Its process, which may serve other tests after this one. */
  readonly pid: () => number;
  /** Asks the server to end, and waits for it. */
  readonly stop: () => Promise<void>;
  /** Ends the server as a power cut would, with no chance to tidy up. */
  readonly kill: () => Promise<void>;
  /** Starts it again on the same port and book, after stopping it where it still runs. */
  readonly restart: () => Promise<void>;
}

async function untilItAnswers(url: string, child: ChildProcess): Promise<void> {
  const deadline = performance.now() + READY_WITHIN_MS;
  while (performance.now() < deadline) {
    if (child.exitCode !== null || child.signalCode !== null) throw new Error(`The server ended before it answered.`);
    try {
      await (await fetch(url, { redirect: 'manual', signal: AbortSignal.timeout(30_000) })).arrayBuffer();
      return;
    } catch {
      await sleep(20);
    }
  }
  throw new Error(`The server did not answer ${url} within ${READY_WITHIN_MS / 1000} seconds.`);
}

async function end(child: ChildProcess, signal: NodeJS.Signals): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const gone = once(child, 'exit');
  child.kill(signal);
  const late = setTimeout(() => child.kill('SIGKILL'), GONE_WITHIN_MS);
  await gone;
  clearTimeout(late);
}

/** The server of this worker, which serves one book after another: see serve-many.mjs. */
interface SharedServer {
  readonly child: ChildProcess;
  free: boolean;
}
let shared: SharedServer | undefined;

const isThere = (child: ChildProcess) => child.exitCode === null && child.signalCode === null;

/** Tells the shared server something and waits until it is done. */
async function tell({ child }: SharedServer, what: 'end' | { readonly port: number; readonly bookFile: string }) {
  const over = new AbortController();
  const { signal } = over;
  const answered = once(child, 'message', { signal });
  const gone = once(child, 'exit', { signal }).then(() => [{ done: false, fault: 'The shared server ended.' }]);
  gone.catch(() => {});
  child.send(what);
  const [{ done, fault }] = (await Promise.race([answered, gone])) as [{ done: boolean; fault?: string }];
  answered.catch(() => {});
  over.abort();
  if (!done) throw new Error(fault);
}

/**
 * Serves the production build over the given book on 127.0.0.1, and waits until it answers. One at a time is served by
 * the process that this worker keeps; a second one, one with settings of its own, and one that is started again after a
 * stop or a kill has a process to itself.
 */
export async function startServer(options: ServerOptions): Promise<Server> {
  const port = options.port ?? (await freePort());
  const url = `http://127.0.0.1:${port}`;
  const { bookFile } = options;
  let printed = '';
  const note = (chunk: Buffer) => {
    printed += chunk.toString();
  };
  if (options.openLine !== false) officeAllowsOpenLine(bookFile);

  const run = (args: readonly string[], own: Readonly<Record<string, string>>, ipc: boolean) => {
    const env = { ...process.env, NODE_ENV: 'production' as const, ...QUIET, ...own };
    const stdio = ipc ? (['pipe', 'pipe', 'pipe', 'ipc'] as const) : ('pipe' as const);
    const begun = spawn(process.execPath, args, { cwd: ROOT, env, stdio: stdio as StdioOptions });
    running.add(begun);
    begun.once('exit', () => running.delete(begun));
    return begun;
  };
  const listenTo = (child: ChildProcess) => {
    child.stdout?.on('data', note);
    child.stderr?.on('data', note);
  };
  const answers = (child: ChildProcess) =>
    untilItAnswers(url, child).catch(async (fault: Error) => {
      await end(child, 'SIGKILL');
      throw new Error(`${fault.message} It printed:\n${printed}`);
    });
  const startOwn = async () => {
    const child = run([SERVE, '--port', String(port)], { PELTRY_BOOK: bookFile, ...options.env }, false);
    listenTo(child);
    await answers(child);
    return child;
  };
  const startShared = async () => {
    if (!shared || !isThere(shared.child)) shared = { child: run([SERVE_MANY], {}, true), free: true };
    shared.free = false;
    listenTo(shared.child);
    await tell(shared, { port, bookFile });
    await answers(shared.child);
    return shared;
  };

  const alone = options.env !== undefined || options.port !== undefined || shared?.free === false;
  let now: ChildProcess | SharedServer = await (alone ? startOwn() : startShared());
  const stop = async (signal: NodeJS.Signals) => {
    if (!('free' in now)) return end(now, signal);
    const { child } = now;
    if (now.free || !isThere(child)) return;
    if (signal === 'SIGKILL') await end(child, signal);
    else await tell(now, 'end');
    child.stdout?.off('data', note);
    child.stderr?.off('data', note);
    now.free = true;
  };
  return {
    url,
    hallUrl: `http://${HALL_HOST}:${port}`,
    log: () => printed,
    pid: () => ('free' in now ? now.child : now).pid ?? 0,
    stop: () => stop('SIGTERM'),
    kill: () => stop('SIGKILL'),
    restart: async () => {
      await stop('SIGTERM');
      now = await startOwn();
    },
  };
}
