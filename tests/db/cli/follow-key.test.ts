import { once } from 'node:events';
import { writeFileSync } from 'node:fs';
import { createServer, type RequestListener, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { networkInterfaces } from 'node:os';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { openBookInMemory } from '#db/book/open.ts';
import { follow } from '#db/follow/follow.ts';
import { followKeyFile } from '#db/follow/laptops.ts';
import { withNoSignIns } from '#tests/db/support/passphrases.ts';
import { cli } from '#tests/support/process.ts';
import { tempFile } from '#tests/support/temp.ts';

const KEY = 'a1'.repeat(32);

/** Addresses of this machine by which a request leaves the loopback, as far as its sender can tell. */
const OTHERS = [
  '0.0.0.0',
  ...Object.values(networkInterfaces())
    .flatMap((all) => all ?? [])
    .filter(({ internal, family }) => !internal && family === 'IPv4')
    .map(({ address }) => address),
];

interface Listener {
  readonly port: number;
  /** Every byte that came in, as text. */
  readonly heard: () => string;
  readonly callers: () => number;
}

/** A listener at every address of this machine. */
async function listener(answer: RequestListener): Promise<Listener> {
  let heard = '';
  let callers = 0;
  const server: Server = createServer(answer);
  server.on('connection', (socket) => {
    callers += 1;
    socket.on('data', (part) => (heard += part));
  });
  server.listen(0, '0.0.0.0');
  await once(server, 'listening');
  onTestFinished(() => {
    server.closeAllConnections();
    server.close();
  });
  return { port: (server.address() as AddressInfo).port, heard: () => heard, callers: () => callers };
}

/** As a first laptop whose book has no line yet. */
const NOTHING_NEW = JSON.stringify({ after: '0'.repeat(64), head: 0, lines: [], redactions: [], passphrases: [] });

async function followAt(address: string) {
  const book = openBookInMemory();
  onTestFinished(() => book.close());
  const { signal: stop } = new AbortController();
  return follow(withNoSignIns(book), { address, key: KEY, stop, once: true, say: () => undefined });
}

describe('the key of a second laptop', () => {
  it.each(OTHERS)('is not sent over plain http to %s: nobody there is even called', async (host) => {
    const first = await listener((_, response) => response.end(NOTHING_NEW));
    expect(await followAt(`http://${host}:${first.port}`)).toMatchObject({ ok: false, code: 'open_line' });
    expect([first.callers(), first.heard()]).toEqual([0, '']);
  });

  it('is sent to a program on the same machine', async () => {
    const first = await listener((_, response) => response.end(NOTHING_NEW));
    expect(await followAt(`http://127.0.0.1:${first.port}`)).toMatchObject({ ok: true, value: 0 });
    expect(first.heard()).toContain(`Bearer ${KEY}`);
  });

  it.each([301, 302, 303, 307, 308])('goes nowhere that an answer with %i leads to', async (status) => {
    const elsewhere = await listener((_, response) => response.end(NOTHING_NEW));
    const location = `http://0.0.0.0:${elsewhere.port}/api/follow`;
    const first = await listener((_, response) => response.writeHead(status, { location }).end());
    const answer = await followAt(`http://127.0.0.1:${first.port}`);
    expect(answer).toMatchObject({ ok: false, code: 'wrong_address' });
    expect(elsewhere.callers()).toBe(0);
  });

  it('stays here where a person types the open line of a first laptop, and the command says what to type', async () => {
    vi.stubEnv('PELTRY_FOLLOW_ONCE', '1');
    onTestFinished(() => void vi.unstubAllEnvs());
    const first = await listener((_, response) => response.end(NOTHING_NEW));
    const book = tempFile('second.book');
    writeFileSync(followKeyFile(book), `${KEY}\n`);
    const { code, err } = await cli('follow', `http://0.0.0.0:${first.port}`, '--book', book);
    expect([code, first.callers()]).toEqual([1, 0]);
    expect(err).toMatch(/^http:\/\/0\.0\.0\.0:\d+ is not encrypted: .* Use the address that begins with https: /);
  });
});
