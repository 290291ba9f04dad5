/** Serves the book that a subcommand has just made ready, so that one command is all that is typed. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Opens the hall with this book and waits until the server ends; PORT and SECURE_PORT choose other ports. Gives its exit code. */
export async function serveHall(book: string): Promise<0 | 1> {
  // As far below the project's folder from this source as from the bundle of this program.
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const child = spawn(process.execPath, [join(root, 'app/server/serve.mjs'), '--hall'], {
    ...{ stdio: 'inherit', env: { ...process.env, NODE_ENV: 'production', PELTRY_BOOK: book } },
    cwd: root,
  });
  // Ctrl-C reaches both: the server ends in its own time, and this program behind it.
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => child.kill(signal));
  const [code] = await once(child, 'close');
  return code === 0 ? 0 : 1;
}
