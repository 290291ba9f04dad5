/** Runs a bundled script under strace, which counts its calls to the disk or has one of them fail. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { tempFile } from '#tests/support/temp.ts';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));

export interface Traced {
  readonly script: string;
  readonly file: string;
  readonly from: number;
  readonly acts: number;
  /** Such as `fdatasync:error=EIO:when=3`. */
  readonly inject?: string;
}

export interface TracedRun {
  readonly lines: readonly string[];
  readonly code: number | null;
  /** The calls to the book's own files, in order, such as `pwrite64`. */
  readonly calls: readonly string[];
}

const CALLS = 'pwrite64,fsync,fdatasync,ftruncate';

export function traced({ script, file, from, acts, inject }: Traced): TracedRun {
  const out = tempFile('calls');
  const only = [file, `${file}-wal`, `${file}-shm`].flatMap((path) => ['-P', path]);
  const how = inject === undefined ? [] : ['-e', `inject=${inject}`];
  const words = ['-f', '-qq', '-o', out, '-e', `trace=${CALLS}`, ...how, ...only];
  const program = [process.execPath, script, file, String(from), String(acts)];
  const env = { ...process.env, NODE_PATH: join(ROOT, 'node_modules') };
  const ended = spawnSync('strace', [...words, ...program], { cwd: ROOT, env, encoding: 'utf8' });
  if (ended.error) throw ended.error;
  if (ended.stderr.includes('ptrace')) throw new Error(`strace may not trace here: ${ended.stderr}`);
  const calls = [...readFileSync(out, 'utf8').matchAll(/\b(pwrite64|fsync|fdatasync|ftruncate)\(/g)].map(
    (m) => m[1] ?? '',
  );
  return { lines: ended.stdout.split('\n').filter(Boolean), code: ended.status, calls };
}
