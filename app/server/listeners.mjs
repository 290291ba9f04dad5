import { once } from 'node:events';
import { createServer, request } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import { setTimeout as after } from 'node:timers/promises';
import { gate } from './gate.mjs';

/** A request that trickles in holds a socket no longer than this; answers may take as long as they like. */
const TIMES = { headersTimeout: 20_000, requestTimeout: 60_000 };
/** One that never says how it would encrypt is let go as soon. */
const SECURE_TIMES = { ...TIMES, handshakeTimeout: 20_000 };
const MOST_SOCKETS = 1000;
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

export const openLine = (handle) => createServer(TIMES, gate({ secure: false, handle }));

export const secureLine = (handle, keys) =>
  createSecureServer({ ...SECURE_TIMES, ...keys, minVersion: 'TLSv1.2' }, gate({ secure: true, handle }));

/** Listens at a port of this machine alone, or of every address it has. */
export async function listen(server, { port, hall }) {
  server.maxConnections = MOST_SOCKETS;
  for (const wish of ['upgrade', 'connect']) server.on(wish, turnAway);
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

/**
 * The first request opens the book, by which the gate knows the names the office allows: it comes from us. It asks for
 * a small page, because what that loads every other page needs too. The second loads the door, which would otherwise
 * be loaded by the first lot of the sale.
 */
export async function openTheBook(port) {
  await ask({ port, path: '/trouble' });
  await after(300, undefined, { ref: false });
  await ask({ port, path: '/api/commands/none', method: 'POST' });
}

/** Not by fetch, which Next has made its own by now. */
async function ask(what) {
  const [answer] = await once(request({ host: '127.0.0.1', ...what }).end(), 'response');
  answer.resume();
}

/** Event streams never end by themselves: what is being answered gets a moment, then every line is cut. */
export function stop(servers) {
  const closed = servers.map((server) => once(server.close(), 'close'));
  for (const server of servers) server.closeIdleConnections();
  Promise.all(closed).then(() => process.exit(0));
  setTimeout(() => process.exit(0), 300).unref();
}
