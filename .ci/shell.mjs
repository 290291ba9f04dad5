// Small ways to run a program and to wait for it, shared by the check and the demo.
import { AsyncLocalStorage } from 'node:async_hooks';
import { spawn, spawnSync } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's folder, absolute. */
export const ROOT = fileURLToPath(new URL('..', import.meta.url));

// Colours are for people at a terminal; a file or a pipe gets plain words.
const PLAIN = process.stdout.isTTY ? {} : { NO_COLOR: '1', FORCE_COLOR: '0' };

/** The path of a program on PATH, or null. */
export function which(name) {
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    const path = join(folder, name);
    try {
      accessSync(path, constants.X_OK);
      return path;
    } catch {
      // Not in this folder; the next one may have it.
    }
  }
  return null;
}

/** The path of a package's own command, run by this Node so that no shell and no PATH stands between. */
export const bin = (path) => join(ROOT, 'node_modules', path);

// What is said by work that runs beside other work; without it, words go straight out.
const kept = new AsyncLocalStorage();

/** Prints a line, or keeps it where the work around it runs beside other work. */
export function say(line) {
  const words = kept.getStore();
  if (words === undefined) console.log(line);
  else words.push(Buffer.from(`${line}\n`));
}

/** Runs `work` beside other work: what it and its programs say is printed in one piece at its end. */
export async function beside(work) {
  const words = [];
  const done = await kept.run(words, work);
  process.stdout.write(Buffer.concat(words));
  return done;
}

/**
 * Runs a program to its end with its output shown, and gives its exit code: null when it was killed or could not start.
 * `limitMs` kills what hangs.
 */
export function run(command, args, { env = {}, limitMs = 0 } = {}) {
  const words = kept.getStore();
  const out = words === undefined ? 'inherit' : 'pipe';
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd: ROOT,
      stdio: ['ignore', out, out],
      env: { ...process.env, ...PLAIN, NEXT_TELEMETRY_DISABLED: '1', ...env },
      timeout: limitMs,
      killSignal: 'SIGKILL',
    });
    child.stdout?.on('data', (piece) => words.push(piece));
    child.stderr?.on('data', (piece) => words.push(piece));
    child.on('error', (fault) => {
      say(fault.message);
      resolve(null);
    });
    child.on('close', resolve);
  });
}

/** Runs a program of Node's. */
export const node = (args, options) => run(process.execPath, args, options);

/** Runs a program quietly; true when it ended well. */
export const quietly = (command, args) => spawnSync(command, args, { cwd: ROOT, stdio: 'ignore' }).status === 0;
