import { once } from 'node:events';
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import { type AddressInfo, connect, type Socket } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Shares } from '#app/server/guard/shares.ts';
import { listen, plainListener } from '#app/server/lines/listeners.mjs';

let server: Server;
let port = 0;

/** A socket that is left open would otherwise be waited for as long as the test may last. */
const letGo = (socket: Socket) => once(socket, 'end', { signal: AbortSignal.timeout(20_000) });

/** As a framework does that speaks other protocols, too: it listens for such requests, and then does nothing about them. */
function framework({ socket }: IncomingMessage, response: ServerResponse) {
  const { server: at } = socket as Socket & { readonly server: Server };
  if (at.listenerCount('upgrade') < 2) at.on('upgrade', () => undefined);
  response.writeHead(200, { 'content-type': 'text/plain' }).end('the framework');
}

beforeAll(async () => {
  const shares = new Shares();
  const book = {
    knowsHost: () => true,
    hear: () => undefined,
    looked: () => undefined,
    signs: () => ({}),
    shares: () => shares,
  };
  server = await listen(plainListener({ handle: framework, book }), { port: 0, hall: false });
  ({ port } = server.address() as AddressInfo);
  expect((await fetch(`http://127.0.0.1:${port}/`)).status).toBe(200);
});
afterAll(() => {
  server.closeAllConnections();
  server.close();
});

const WISHES = {
  'an upgrade to WebSocket': 'GET / HTTP/1.1\r\nHost: x\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n\r\n',
  'an upgrade to anything': 'GET / HTTP/1.1\r\nHost: x\r\nConnection: upgrade\r\nUpgrade: x\r\n\r\n',
  'an upgrade with a body': 'POST / HTTP/1.1\r\nConnection: upgrade\r\nUpgrade: h2c\r\nContent-Length: 9\r\n\r\n',
  'a way through to elsewhere': 'CONNECT elsewhere.test:443 HTTP/1.1\r\nHost: x\r\n\r\n',
};

/** Sends the wish and leaves the socket open at this end; gives what came back once the other end has let it go. */
async function wish(text: string): Promise<string> {
  const socket = connect({ port, host: '127.0.0.1', allowHalfOpen: true });
  let said = '';
  socket.on('data', (part) => (said += part));
  socket.write(text);
  await letGo(socket).finally(() => socket.destroy());
  return said;
}

const openSockets = () =>
  new Promise<number>((resolve, reject) => server.getConnections((fault, n) => (fault ? reject(fault) : resolve(n))));

describe('a request for another protocol', () => {
  // RFC 9112, 9.6: whoever sends "close" answers no further request on this connection.
  it.each(Object.entries(WISHES))('%s is turned away in a sentence and its socket is let go', async (_, text) => {
    const said = await wish(text);
    expect(said).toMatch(/^HTTP\/1\.1 400 Bad Request\r\nConnection: close\r\n/);
    expect(said).toMatch(/Ask again without Upgrade and without CONNECT\.\n$/);
    await expect.poll(openSockets).toBeLessThanOrEqual(1);
  });

  it('keeps nobody out, however many there are', async () => {
    const text = WISHES['an upgrade to WebSocket'];
    const callers: Socket[] = [];
    // More than the line has room for, none of which lets go of its own accord.
    for (let sent = 0; sent < 1100; sent += 1) {
      const socket = connect({ port, host: '127.0.0.1', allowHalfOpen: true });
      socket.on('error', () => undefined).resume();
      socket.write(text);
      callers.push(socket);
      if (sent % 100 === 99) await letGo(socket);
    }
    const answer = await fetch(`http://127.0.0.1:${port}/`);
    expect(await answer.text()).toBe('the framework');
    await expect.poll(openSockets).toBeLessThanOrEqual(2);
    for (const socket of callers) socket.destroy();
  });
});
