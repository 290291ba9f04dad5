import { once } from 'node:events';
import { createServer } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import { createServer as createRawServer } from 'node:net';
import { gate } from '../gate.mjs';

/** A request that trickles in holds a socket no longer than this; answers may take as long as they like. */
const TIMES = { headersTimeout: 20_000, requestTimeout: 60_000 };
/** One that never says how it would encrypt is let go as soon. */
const SECURE_TIMES = { ...TIMES, handshakeTimeout: 20_000 };
/** So long a caller may take to read why it is turned away. */
const READS_MS = 2000;

const NO_OTHER_PROTOCOL = 'This server answers plain HTTP only. Ask again without Upgrade and without CONNECT.\n';
/** A line without encryption; `behind` is what the gate gives requests to. */
export function plainListener(behind) {
  const server = createServer(TIMES, gate({ ...behind, secure: false }));
  return server.on('connection', (socket) => behind.book.shares().admit(socket));
}

/** The first byte of every handshake (RFC 8446, 5.1). */
const HANDSHAKE = 0x16;
const NO_PLAIN_HERE = 'This port is for the encrypted line. Ask again with an address that begins with https.\n';

/**
 * The encrypted line. Before it stands a listener that looks at the first byte: a browser that comes with http is led to
 * the same address with https, and reads no fault. `swap` takes keys that were made anew.
 */
export function secureListener(behind, keys) {
  const options = (own) => ({ ...SECURE_TIMES, ...own, minVersion: 'TLSv1.2' });
  const secure = createSecureServer(options(keys), gate({ ...behind, secure: true }));
  secure.on('secureConnection', (socket) => behind.book.shares().encrypted(socket));
  const front = createRawServer((socket) => {
    behind.book.shares().admit(socket);
    const drop = () => socket.destroy();
    socket.on('error', drop).setTimeout(SECURE_TIMES.handshakeTimeout, drop);
    socket.once('readable', () => {
      const first = socket.read();
      if (first === null) return drop();
      if (first[0] !== HANDSHAKE) return leadToHttps(socket, first, behind.book);
      socket.off('error', drop).setTimeout(0).off('timeout', drop);
      socket.unshift(first);
      secure.emit('connection', socket);
    });
  });
  // It never listens itself, and keeps its time limits and its list of sockets from this event on.
  secure.emit('listening');
  const swap = (fresh) => secure.setSecureContext(options(fresh));
  return Object.assign(front, {
    ...{ secure, swap, closeIdleConnections: () => secure.closeIdleConnections() },
    closeAllConnections: () => secure.closeAllConnections(),
  });
}

/** Answers a request in the open on the port of the encrypted line. */
function leadToHttps(socket, first, book) {
  book.noteHttpAtHttps?.();
  const [, path] = /^(?:GET|HEAD) (\/[\x21-\x7e]*) HTTP\//.exec(first) ?? [];
  const [, host = ''] = /\r\nhost: *([\w.:[\]-]+)\r\n/i.exec(first) ?? [];
  const where = path && book.knowsHost(host) ? [`Location: https://${host}${path}`] : [];
  turnAwayWith(socket, [where.length > 0 ? '307 Temporary Redirect' : '400 Bad Request', ...where], NO_PLAIN_HERE);
}

/** Listens at a port of this machine alone, or of every address it has. */
export async function listen(server, { port, hall, dev = false }) {
  // Under development the framework's tools speak to the browser over a socket of their own.
  for (const wish of dev ? [] : ['upgrade', 'connect']) (server.secure ?? server).on(wish, turnAway);
  server.listen(hall ? { port } : { port, host: '127.0.0.1' });
  await once(server, 'listening');
  return server;
}

/**
 * Ends a socket whose caller wishes for another protocol. Node has let go of it by then: no time limit of a request
 * holds for it any more, and left open it would keep its place for good.
 */
function turnAway(_request, socket) {
  turnAwayWith(socket, ['400 Bad Request'], NO_OTHER_PROTOCOL);
}

function turnAwayWith(socket, [status, ...headers], words) {
  socket.on('error', () => socket.destroy());
  const always = ['Connection: close', 'Content-Type: text/plain; charset=utf-8', 'Cache-Control: no-store'];
  const length = `Content-Length: ${Buffer.byteLength(words)}`;
  const all = [...headers, ...always, 'X-Content-Type-Options: nosniff', length];
  socket.write([`HTTP/1.1 ${status}`, ...all, '', words].join('\r\n'));
  socket.destroySoon();
  setTimeout(() => socket.destroy(), READS_MS).unref();
}

/** Event streams never end by themselves: what is being answered gets a moment, then every line is cut. */
export function stop(servers) {
  const closed = servers.map((server) => once(server.close(), 'close'));
  for (const server of servers) server.closeIdleConnections();
  Promise.all(closed).then(() => process.exit(0));
  setTimeout(() => process.exit(0), 300).unref();
}
