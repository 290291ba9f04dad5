import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { HALL_HOST } from './chromium.ts';
import { officeAllowsOpenLine } from './office-says.ts';
import { freePort } from './ports.ts';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const SERVE = `${ROOT}app/server/serve.mjs`;
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
      await sleep(50);
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

/** Serves the production build over the given book on 127.0.0.1, and waits until it answers. */
export async function startServer(options: ServerOptions): Promise<Server> {
  const port = options.port ?? (await freePort());
  const url = `http://127.0.0.1:${port}`;
  const own = { ...QUIET, PELTRY_BOOK: options.bookFile, ...options.env };
  const env = { ...process.env, NODE_ENV: 'production' as const, ...own };
  let printed = '';
  let child: ChildProcess;
  if (options.openLine !== false) officeAllowsOpenLine(options.bookFile);
  const start = async () => {
    const begun = spawn(process.execPath, [SERVE, '--port', String(port)], { cwd: ROOT, env });
    running.add(begun);
    begun.once('exit', () => running.delete(begun));
    child = begun;
    const note = (chunk: Buffer) => {
      printed += chunk.toString();
    };
    child.stdout?.on('data', note);
    child.stderr?.on('data', note);
    await untilItAnswers(url, child).catch(async (fault: Error) => {
      await end(child, 'SIGKILL');
      throw new Error(`${fault.message} It printed:\n${printed}`);
    });
  };

  await start();
  return {
    url,
    hallUrl: `http://${HALL_HOST}:${port}`,
    log: () => printed,
    stop: () => end(child, 'SIGTERM'),
    kill: () => end(child, 'SIGKILL'),
    restart: async () => {
      await end(child, 'SIGTERM');
      await start();
    },
  };
}
