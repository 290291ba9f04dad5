import { once } from 'node:events';
import { createServer } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import { gate } from './gate.mjs';

/** A request that trickles in holds a socket no longer than this; answers may take as long as they like. */
const TIMES = { headersTimeout: 20_000, requestTimeout: 60_000 };
/** One that never says how it would encrypt is let go as soon. */
const SECURE_TIMES = { ...TIMES, handshakeTimeout: 20_000 };
/** So long a caller may take to read why it is turned away. */
const READS_MS = 2000;

const NO_OTHER_PROTOCOL = 'This server answers plain HTTP only. Ask again without Upgrade and without CONNECT.\n';
const TURNED_AWAY = [
  'HTTP/1.1 400 Bad Request',
  'Connection: close',
  'Content-Type: text/plain; charset=utf-8',
  'Cache-Control: no-store',
  'X-Content-Type-Options: nosniff',
  `Content-Length: ${Buffer.byteLength(NO_OTHER_PROTOCOL)}`,
  ...['', NO_OTHER_PROTOCOL],
].join('\r\n');

/** A line without encryption; `behind` is what the gate gives requests to. */
export function plainListener(behind) {
  const server = createServer(TIMES, gate({ ...behind, secure: false }));
  return server.on('connection', (socket) => behind.book.shares().admit(socket));
}

export function secureListener(behind, keys) {
  const options = { ...SECURE_TIMES, ...keys, minVersion: 'TLSv1.2' };
  const server = createSecureServer(options, gate({ ...behind, secure: true }));
  server.on('connection', (socket) => behind.book.shares().admit(socket));
  return server.on('secureConnection', (socket) => behind.book.shares().encrypted(socket));
}

/** Listens at a port of this machine alone, or of every address it has. */
export async function listen(server, { port, hall, dev = false }) {
  // Under development the framework's tools speak to the browser over a socket of their own.
  for (const wish of dev ? [] : ['upgrade', 'connect']) server.on(wish, turnAway);
  server.listen(hall ? { port } : { port, host: '127.0.0.1' });
  await once(server, 'listening');
  return server;
}

/**
 * Ends a socket whose caller wishes for another protocol. Node has let go of it by then: no time limit of a request
 * holds for it any more, and left open it would keep its place for good.
 */
function turnAway(_request, socket) {
  socket.on('error', () => socket.destroy());
  socket.write(TURNED_AWAY);
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
