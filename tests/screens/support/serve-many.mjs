/**
 * A server that serves one book after another, so that Next, React and SQLite are loaded once for all files of tests of
 * a worker. For each book app/server/serve.mjs runs anew, as it does for people, and loads everything of ours anew:
 * nothing that was read of one book is there for the next. Whoever started this process says over its channel what to serve.
 */
import '#app/server/production.mjs';
import { createRequire } from 'node:module';
import { Server } from 'node:net';
import { fileURLToPath } from 'node:url';

const { cache } = createRequire(import.meta.url);
const BUILT = fileURLToPath(new URL('../../../.next/', import.meta.url));
const SERVE = '../../../app/server/serve.mjs';
const environment = { ...process.env };

// Each start adds its own, and a hundred of them are no leak.
process.setMaxListeners(0);
/** What listens for the book that is served now. */
const servers = new Set();
const { listen } = Server.prototype;
Server.prototype.listen = function (...where) {
  servers.add(this);
  return listen.apply(this, where);
};

let begun = 0;

async function begin({ port, bookFile }) {
  begun += 1;
  process.env.PELTRY_BOOK = bookFile;
  process.argv = [...process.argv.slice(0, 2), '--port', String(port)];
  await import(`${SERVE}?${begun}`);
}

function end() {
  for (const server of servers) {
    server.close();
    server.closeAllConnections();
  }
  servers.clear();
  for (const name of Object.keys(globalThis).filter((one) => one.startsWith('peltry'))) {
    closeWithin(globalThis[name]);
    delete globalThis[name];
  }
  for (const path of Object.keys(cache)) if (path.startsWith(BUILT)) delete cache[path];
  for (const name of Object.keys(process.env)) if (!(name in environment)) delete process.env[name];
}

/** Closes the book, the sign-ins, the lock on the book and the threads that draw papers, wherever they hang. */
function closeWithin(holder) {
  for (const one of Object.values(holder ?? {})) {
    if (one === null || typeof one !== 'object') continue;
    const close = one.close ?? one.terminate ?? one.release;
    if (typeof close === 'function') close.call(one);
    else if (Array.isArray(one) || Object.getPrototypeOf(one) === Object.prototype) closeWithin(one);
  }
}

process.on('message', async (what) => {
  try {
    await (what === 'end' ? end() : begin(what));
    process.send({ done: true });
  } catch (fault) {
    process.send({ done: false, fault: String(fault?.stack ?? fault) });
  }
});
process.once('disconnect', () => process.exit());
