// Small ways to run a program and to wait for it, shared by the check and the demo.
import { AsyncLocalStorage } from 'node:async_hooks';
import { spawn, spawnSync } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's folder, absolute. */
export const ROOT = fileURLToPath(new URL('..', import.meta.url));

// What ends a program from a terminal, or from a pipeline.
const SIGNALS = ['SIGINT', 'SIGTERM'];

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
 * Calls `end` with the reason once `limitMs` are over in all, or `silentMs` without a call of `heard`; 0 is no limit.
 * Both are there for what hangs: a slow machine goes on printing, however long it takes.
 */
export function guard({ limitMs, silentMs }, end) {
  const after = (ms, why) => (ms > 0 ? [setTimeout(() => end(why), ms)] : []);
  const whole = after(limitMs, `it took more than ${limitMs / 60_000} minutes`);
  const silence = after(silentMs, `it said nothing for ${silentMs / 60_000} minutes`);
  return {
    heard: () => silence.forEach((timer) => void timer.refresh()),
    over: () => [...whole, ...silence].forEach((timer) => void clearTimeout(timer)),
  };
}

/**
 * Runs a program to its end with its output shown, and gives its exit code: null when it was killed or could not start.
 * `limitMs` and `silentMs` end what hangs, with all that it started: see {@link guard}.
 */
export function run(command, args, { env = {}, limitMs = 0, silentMs = 0 } = {}) {
  const words = kept.getStore();
  // A program with limits leads a group of its own: what it started would hold its output open, and work on.
  const group = limitMs > 0 || silentMs > 0;
  const out = words === undefined && !group ? 'inherit' : 'pipe';
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd: ROOT,
      stdio: ['ignore', out, out],
      env: { ...process.env, ...PLAIN, NEXT_TELEMETRY_DISABLED: '1', ...env },
      detached: group,
    });
    const kill = () => {
      if (group && child.pid !== undefined && child.exitCode === null) process.kill(-child.pid, 'SIGKILL');
    };
    const watch = guard({ limitMs, silentMs }, (why) => {
      say(`Ended, because ${why}.`);
      kill();
    });
    const broken = () => {
      kill();
      process.exit(1);
    };
    if (group) for (const signal of SIGNALS) process.once(signal, broken);
    const hear = (stream) => (piece) => {
      watch.heard();
      if (words === undefined) stream.write(piece);
      else words.push(piece);
    };
    child.stdout?.on('data', hear(process.stdout));
    child.stderr?.on('data', hear(process.stderr));
    const done = (code) => {
      watch.over();
      for (const signal of SIGNALS) process.off(signal, broken);
      resolve(code);
    };
    child.on('error', (fault) => {
      say(fault.message);
      done(null);
    });
    child.on('close', done);
  });
}

/** Runs a program of Node's. */
export const node = (args, options) => run(process.execPath, args, options);

/** Runs a program quietly; true when it ended well. */
export const quietly = (command, args) => spawnSync(command, args, { cwd: ROOT, stdio: 'ignore' }).status === 0;
