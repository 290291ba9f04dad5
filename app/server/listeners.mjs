import { once } from 'node:events';
import { createServer, request } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import { setTimeout as after } from 'node:timers/promises';
import { gate } from './gate.mjs';

/** A request that trickles in holds a socket no longer than this; answers may take as long as they like. */
const TIMES = { headersTimeout: 20_000, requestTimeout: 60_000 };
const MOST_SOCKETS = 1000;

export const openLine = (handle) => createServer(TIMES, gate({ secure: false, handle }));

export const secureLine = (handle, keys) =>
  createSecureServer({ ...TIMES, ...keys, minVersion: 'TLSv1.2' }, gate({ secure: true, handle }));

/** Listens at a port of this machine alone, or of every address it has. */
export async function listen(server, { port, hall }) {
  server.maxConnections = MOST_SOCKETS;
  server.listen(hall ? { port } : { port, host: '127.0.0.1' });
  await once(server, 'listening');
  return server;
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
