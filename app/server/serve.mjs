// The server: the application behind its gate, on an encrypted line for the staff and an open one for the hall.
// `node app/server/serve.mjs [--port 3000] [--secure-port 3443] [--hall | --here]`; with neither as it
// was the last time, and for this machine only where the hall was never opened. With `--dev` pages follow their sources;
// what entries are given to is loaded at the start.
import './production.mjs';
import { createServer } from 'node:http';
import { resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import next from 'next';
import { onceAMinute } from './guard/terminal.mjs';
import { integrityCheck } from './integrity-check.mjs';
import { linesOf } from './lines/lines.mjs';
import { stop } from './lines/listeners.mjs';
import { programFile } from './programs.mjs';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

const { values } = parseArgs({
  options: {
    port: { type: 'string', default: process.env.PORT ?? '3000' },
    'secure-port': { type: 'string', default: process.env.SECURE_PORT ?? '3443' },
    hall: { type: 'boolean', default: false },
    here: { type: 'boolean', default: false },
    dev: { type: 'boolean', default: false },
  },
});
const [port, securePort] = [values.port, values['secure-port']].map((typed) => Number.parseInt(typed, 10));

// What is written here holds people's names: it is for this account alone.
process.umask(0o077);

const bookFile = resolve(process.env.PELTRY_BOOK ?? 'data/peltry.book');
const checking = integrityCheck(bookFile);
const { book } = await import(pathToFileURL(programFile('server')).href);
// Before anything is made: a mistyped path must not become a second book.
const whyNot = book.whyNotServed();
if (whyNot !== null) {
  console.error(whyNot);
  process.exit(1);
}

book.shut(bookFile);

console.error = onceAMinute(console.error);
// One request that fails must not end the evening for all the others.
for (const fault of ['uncaughtException', 'unhandledRejection']) process.on(fault, (thrown) => console.error(thrown));

const { dev } = values;
if (values.here) book.hallRemembered(false);
const hall = !values.here && (values.hall || book.hallRemembered());
// Next listens for requests of other protocols at the server it is given, and leaves them open: it is given none of ours,
// except under development, where it speaks to the browser that way.
const httpServer = dev ? undefined : createServer();
const app = next({ dev, dir: ROOT, hostname: '127.0.0.1', port, httpServer });
await app.prepare();
book.open(await checking);
const behind = { handle: app.getRequestHandler(), book, dev };

const say = (...lines) => console.log(lines.join('\n'));
const lines = linesOf({ behind, ports: { open: port, secure: securePort }, dev, say });
try {
  await lines.begin(hall);
} catch (fault) {
  console.error(`The server cannot listen: ${fault.message}. Is another program at this port?`);
  process.exit(1);
}
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => stop(lines.servers()));

say(`Ready. Open line: http://127.0.0.1:${port}`);
if (process.env.PELTRY_SECURE_PORT) say(`Encrypted line: https://localhost:${securePort}`);
say(
  hall
    ? 'For the whole hall, also at the next start. --here is for this machine only.'
    : 'For this machine only; --hall, or Office, Network, opens it to the hall.',
);
