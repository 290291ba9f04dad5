// Small ways to run a program and to wait for it, shared by the check and the demo.
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

/**
 * Runs a program to its end with its output shown, and gives its exit code: null when it was killed or could not start.
 * `limitMs` kills what hangs.
 */
export function run(command, args, { env = {}, limitMs = 0 } = {}) {
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd: ROOT,
      stdio: ['ignore', 'inherit', 'inherit'],
      env: { ...process.env, ...PLAIN, NEXT_TELEMETRY_DISABLED: '1', ...env },
      timeout: limitMs,
      killSignal: 'SIGKILL',
    });
    child.on('error', (fault) => {
      console.error(fault.message);
      resolve(null);
    });
    child.on('exit', resolve);
  });
}

/** Runs a program of Node's. */
export const node = (args, options) => run(process.execPath, args, options);

/** Runs a program quietly; true when it ended well. */
export const quietly = (command, args) => spawnSync(command, args, { cwd: ROOT, stdio: 'ignore' }).status === 0;
