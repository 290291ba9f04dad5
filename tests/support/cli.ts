/** Runs the command line of the book: in this process, which is fast, or as a process of its own. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { programFile } from '#app/server/programs.mjs';
import { commandLine } from '#db/cli/main.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

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
