/** The servers of the bench: the product's own build, and a bare application of the same Next. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { freePort } from '#tests/screens/support/http.ts';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const BARE_APP = `${ROOT}tests/bench/bare-app`;
const NEXT = `${ROOT}node_modules/next/dist/bin/next`;
const OURS = `${ROOT}app/server/serve.mjs`;

export interface Served {
  readonly url: string;
  /** Milliseconds from the start of the process to its first whole page. */
  readonly startedIn: number;
  /** Resident memory of the server now, in megabytes. */
  readonly memory: () => number;
  readonly stop: () => Promise<void>;
}

const built = { bare: false };

function build(args: readonly string[]): void {
  const made = spawnSync(process.execPath, args, { cwd: ROOT, encoding: 'utf8' });
  if (made.status !== 0) throw new Error(`The build failed:\n${made.stdout}${made.stderr}`);
}

/** The product over a book, at `page` first. */
export async function serveOurs(bookFile: string, page = '/'): Promise<Served> {
  build([`${ROOT}.ci/build.mjs`]);
  return serve(ROOT, { program: [OURS], env: { PELTRY_BOOK: bookFile }, page });
}

/** The bare application, which writes into a file that is a book. */
export async function serveBare(bookFile = ''): Promise<Served> {
  if (!built.bare) build([NEXT, 'build', BARE_APP]);
  built.bare = true;
  return serve(BARE_APP, {
    program: [NEXT, 'start', BARE_APP, '-H', '127.0.0.1'],
    env: { BARE_BOOK: bookFile },
    page: '/',
  });
}

interface Serving {
  readonly program: readonly string[];
  readonly env: Readonly<Record<string, string>>;
  readonly page: string;
}

async function serve(folder: string, { program, env, page }: Serving): Promise<Served> {
  const port = await freePort();
  const url = `http://127.0.0.1:${port}`;
  const from = performance.now();
  const args = [...program, '--port', String(port)];
  const all = { ...process.env, ...env, NODE_ENV: 'production' as const };
  const child = spawn(process.execPath, args, { cwd: folder, env: all, stdio: ['ignore', 'ignore', 'inherit'] });
  process.once('exit', () => child.kill('SIGKILL'));
  await untilItAnswers(`${url}${page}`, child);
  return { url, startedIn: performance.now() - from, memory: () => memoryOf(child), stop: () => end(child) };
}

async function untilItAnswers(address: string, child: ChildProcess): Promise<void> {
  while (child.exitCode === null) {
    try {
      const answer = await fetch(address);
      await answer.arrayBuffer();
      if (answer.ok) return;
    } catch {
      // Nobody listens yet.
    }
    await sleep(10);
  }
  throw new Error('The server ended before it answered.');
}

function memoryOf({ pid }: ChildProcess): number {
  const kilobytes = /VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? '0';
  return Number.parseInt(kilobytes, 10) / 1024;
}

async function end(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null) return;
  const gone = once(child, 'exit');
  child.kill('SIGTERM');
  const late = setTimeout(() => child.kill('SIGKILL'), 5000);
  await gone;
  clearTimeout(late);
}
