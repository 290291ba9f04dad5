// `npm run demo`: packages, a filled book, a build and a server, each only where it is missing. `-- --fresh` fills anew,
// `-- --hall` opens it to the network.
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { ensureBuild } from '../.ci/build.mjs';
import { ensurePackages } from '../.ci/packages.mjs';
import { bin, node, ROOT } from '../.ci/shell.mjs';

const HOST = '127.0.0.1';
const FIRST_PORT = 3000;
const PORTS = 50;
// As seed/calendar.ts enters it; this file starts before TypeScript can be read.
const READY = (url) =>
  `\nPeltry is ready: ${url}\nSign in as Demo with the passphrase: demo only, not a secret\nPress Ctrl-C to stop.`;
const BOOK = join(ROOT, 'data', 'demo.book');

const BACKUP = /^demo-\d{8}T\d{9}Z\.book(\.json|\.sha256)?$/;

/** SQLite may leave these beside a book; together they are the book, and its worker's passphrase. */
const ENDINGS = ['', '-wal', '-shm', '.sign-ins', '.sign-ins-wal', '.sign-ins-shm'];
const withCompanions = (book) => ENDINGS.map((ending) => `${book}${ending}`);
const remove = (book) => {
  for (const file of withCompanions(book)) rmSync(file, { force: true });
};

/** A book filled anew lacks what was entered in the old one: beside its backups no start would write to it. */
function removeBackups() {
  const folder = process.env.PELTRY_BACKUPS || join(ROOT, 'data', 'backups');
  if (!existsSync(folder)) return;
  for (const name of readdirSync(folder)) if (BACKUP.test(name)) rmSync(join(folder, name), { force: true });
}

/**
 * Fills a book beside the real place and moves it there when whole: a half-filled one is never kept, and a filling that
 * failed does not cost the old one.
 */
async function ensureBook(fresh) {
  if (existsSync(BOOK) && !fresh) return true;
  console.log('Filling the demo book');
  mkdirSync(join(ROOT, 'data'), { recursive: true });
  const draft = `${BOOK}.draft`;
  remove(draft);
  const code = await node([bin('tsx/dist/cli.mjs'), 'seed/fill.ts', draft]);
  if (code !== 0 || !existsSync(draft)) {
    remove(draft);
    return false;
  }
  remove(BOOK);
  removeBackups();
  const [from, to] = [withCompanions(draft), withCompanions(BOOK)];
  for (const [at, file] of from.entries()) if (existsSync(file)) renameSync(file, to[at]);
  return true;
}

const isFree = (port) =>
  new Promise((resolve) => {
    const probe = createServer();
    probe.once('error', () => resolve(false));
    probe.listen(port, HOST, () => probe.close(() => resolve(true)));
  });

async function firstFreePort() {
  for (let port = FIRST_PORT; port < FIRST_PORT + PORTS; port += 1) if (await isFree(port)) return port;
  return null;
}

async function untilItAnswers(url, server) {
  while (server.exitCode === null && server.signalCode === null) {
    const answered = await fetch(url, { redirect: 'manual' }).then(
      () => true,
      () => false,
    );
    if (answered) return true;
    await sleep(100);
  }
  return false;
}

/** Serves until Ctrl-C, and gives the code to end with: a server that was asked to end did well. */
async function serve() {
  const port = await firstFreePort();
  if (port === null) {
    console.log(`Ports ${FIRST_PORT} to ${FIRST_PORT + PORTS - 1} are all taken. Close a program that uses one.`);
    return 1;
  }
  const url = `http://${HOST}:${port}`;
  const hall = process.argv.includes('--hall') ? ['--hall'] : [];
  const args = [
    join(ROOT, 'app/server/serve.mjs'),
    '--port',
    String(port),
    '--secure-port',
    String(port + 443),
    ...hall,
  ];
  const env = { ...process.env, NODE_ENV: 'production', NEXT_TELEMETRY_DISABLED: '1', PELTRY_BOOK: BOOK };
  // In a process group of its own, so that a Ctrl-C reaches the server once, through us, and not twice.
  const server = spawn(process.execPath, args, { cwd: ROOT, env, stdio: 'inherit', detached: true });
  let asked = false;
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) {
    process.on(signal, () => {
      asked = true;
      server.kill('SIGTERM');
    });
  }
  process.on('exit', () => server.kill('SIGKILL'));
  const ended = new Promise((resolve) => server.on('exit', resolve));
  if (await untilItAnswers(url, server)) console.log(READY(url));
  const code = await ended;
  if (asked) console.log('\nStopped.');
  return asked ? 0 : (code ?? 1);
}

async function demo() {
  if (!(await ensurePackages())) return 'The packages could not be fetched: see above.';
  if (!(await ensureBook(process.argv.includes('--fresh')))) return 'The demo book could not be filled: see above.';
  if (!(await ensureBuild())) return 'The build failed: see above.';
  process.exitCode = await serve();
  return null;
}

const trouble = await demo();
if (trouble !== null) {
  console.error(trouble);
  process.exitCode = 1;
}
