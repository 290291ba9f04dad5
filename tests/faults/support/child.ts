/** Processes that are there to be killed: started ahead of time, told to begin, and read to the end of their output. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { tempFolder } from '#tests/support/temp.ts';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));

/**
 * Makes one plain file of a script, because hundreds of processes that each read TypeScript anew would spend the time
 * of the test on starting. The file lies elsewhere, so the native package is looked for from the project.
 */
export async function bundle(script: string): Promise<string> {
  const outfile = join(tempFolder(), 'child.cjs');
  const packages = { external: ['better-sqlite3'], logOverride: { 'empty-import-meta': 'silent' } } as const;
  const options = { entryPoints: [join(ROOT, script)], outfile, absWorkingDir: ROOT, bundle: true };
  await build({ ...options, ...packages, external: ['better-sqlite3'], platform: 'node', format: 'cjs' });
  return outfile;
}

export interface Child {
  /** Settles once the process has loaded everything and waits for its orders. */
  readonly ready: Promise<unknown>;
  /** Everything it wrote after that, line by line, once it has ended. */
  readonly lines: Promise<readonly string[]>;
  begin(orders: unknown): void;
  kill(): void;
}

/** Starts a bundled script. It writes `ready` and then waits for one line of JSON on its input. */
export function start(bundled: string): Child {
  const env = { ...process.env, NODE_PATH: join(ROOT, 'node_modules') };
  const child = spawn(process.execPath, [bundled], { cwd: ROOT, env, stdio: ['pipe', 'pipe', 'inherit'] });
  // A killed reader breaks the pipe it was told over; that is what this is about.
  child.stdin.on('error', () => undefined);
  return {
    ready: once(child.stdout, 'data'),
    lines: linesOf(child),
    begin: (orders) => void child.stdin.write(`${JSON.stringify(orders)}\n`),
    kill: () => void child.kill('SIGKILL'),
  };
}

async function linesOf(child: ChildProcess): Promise<readonly string[]> {
  let output = '';
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    output += text;
  });
  await once(child, 'close');
  return output.split('\n').filter((line) => line !== '' && line !== 'ready');
}

export function after(milliseconds: number): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve, milliseconds);
  });
}
