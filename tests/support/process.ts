/** Scripts of the tests in processes of their own, and the command line of the book: in this process, or as a person types it. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import { programFile } from '#app/server/programs.mjs';
import { commandLine } from '#db/cli/main.ts';
import { tempFolder } from './temp.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** The plain files that scripts were made into, so that several processes need not each read TypeScript anew. */
const made = new Map<string, string>();

function plainFileOf(path: string): string {
  const before = made.get(path);
  // What a file of tests has left in temporary folders goes with it.
  if (before !== undefined && existsSync(before)) return before;
  const outfile = join(tempFolder(), 'script.cjs');
  const options = { entryPoints: [join(ROOT, path)], outfile, absWorkingDir: ROOT, bundle: true };
  const quiet = { 'empty-import-meta': 'silent' } as const;
  buildSync({ ...options, logOverride: quiet, external: ['better-sqlite3'], platform: 'node', format: 'cjs' });
  made.set(path, outfile);
  return outfile;
}

/** Starts `path` (from the project's folder) with pipes to its input and output. */
export function startScript(path: string, args: readonly string[] = []): ChildProcess {
  const env = { ...process.env, NODE_PATH: join(ROOT, 'node_modules') };
  return spawn(process.execPath, [plainFileOf(path), ...args], { cwd: ROOT, env, stdio: ['pipe', 'pipe', 'inherit'] });
}

/** What a script wrote, and how it ended, once its output is closed. */
export async function endOf(child: ChildProcess): Promise<{ output: string; code: number | null }> {
  let output = '';
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    output += text;
  });
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once('error', reject);
    child.once('close', resolve);
  });
  return { output, code };
}

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs it here, with what it says caught. */
export async function cli(...words: readonly string[]): Promise<Ran> {
  const said = { out: '', err: '' };
  const voice = {
    say: (line: string) => {
      said.out += `${line}\n`;
    },
    warn: (line: string) => {
      said.err += `${line}\n`;
    },
  };
  return { code: await commandLine(words, voice), ...said };
}

/** Runs it as a person does who types it. */
export function cliProcess(...words: readonly string[]): Ran {
  const ran = spawnSync(process.execPath, [programFile('cli'), ...words], { cwd: ROOT, encoding: 'utf8' });
  return { code: ran.status, out: ran.stdout, err: ran.stderr };
}

/** What is on the disk of a book: a sum over its file, and whether anything was left beside it. */
export function onDisk(file: string): { sha256: string; beside: string[] } {
  const beside = [`${file}-wal`, `${file}-shm`, `${file}-journal`].filter((name) => existsSync(name));
  return { sha256: createHash('sha256').update(readFileSync(file)).digest('hex'), beside };
}
