import { once } from 'node:events';
import { createServer } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import type { AddressInfo, Server } from 'node:net';
import { beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { openBookInMemory } from '#db/book/open.ts';
import { makeAuthority, makeServerCertificate, writePair } from '#db/certificate/certificate.ts';
import { type Keys, keysOf } from '#db/certificate/keep.ts';
import { certificateOf, permitted, wordsOf } from '#db/certificate/names.ts';
import { authorityByWords, follow } from '#db/follow/follow.ts';
import { withNoSignIns } from '#tests/db/support/passphrases.ts';
import { tempFile } from '#tests/support/temp.ts';

/** What a second laptop says of each thing that may stand in its way, before real listeners. */
const file = tempFile();
const DAY = 86_400_000;
const NOW = Date.now();
const IP = { type: 'ip', value: '127.0.0.1' } as const;
let authority: Awaited<ReturnType<typeof makeAuthority>>;
let ca: string[];

beforeAll(async () => {
  authority = await makeAuthority('Lantern Ridge', permitted([]), new Date(NOW));
  await writePair(file, 'authority', authority);
  ca = [keysOf(file, 'authority')?.cert ?? ''];
});

async function keysFor(host: { type: 'ip' | 'dns'; value: string }, at = NOW): Promise<Keys> {
  const own = tempFile();
  await writePair(own, 'server', await makeServerCertificate(authority, [host], new Date(at)));
  const keys = keysOf(own);
  if (!keys) throw new Error('No keys were made.');
  return keys;
}

async function portOf(server: Server): Promise<number> {
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  onTestFinished(() => void server.close());
  return (server.address() as AddressInfo).port;
}

async function secureAt(keys: Keys, answer: [status: number, body: string] = [401, '{}']): Promise<string> {
  const server = createSecureServer(keys, (_, response) => response.writeHead(answer[0]).end(answer[1]));
  onTestFinished(() => server.closeAllConnections());
  return `https://127.0.0.1:${await portOf(server)}`;
}

async function saidOf(address: string, believing = true) {
  const book = openBookInMemory();
  onTestFinished(() => book.close());
  const { signal: stop } = new AbortController();
  const following = { address, key: 'a1'.repeat(32), stop, once: true, ...(believing && { ca }), say: () => undefined };
  const done = await follow(withNoSignIns(book), following);
  return done.ok ? 'followed' : `${done.code}: ${done.message}`;
}

describe('a laptop that follows says of', () => {
  it('a key that is not known: the sentence of the first laptop, in one line without control characters', async () => {
    const detail = 'The first laptop does not know this key.\u001b[2J';
    const said = await saidOf(await secureAt(await keysFor(IP), [401, JSON.stringify({ detail })]));
    expect(said).toBe('not_allowed: The first laptop does not know this key. [2J');
  });

  it('a certificate of an authority that is not known here', async () => {
    expect(await saidOf(await secureAt(await keysFor(IP)), false)).toMatch(/^wrong_address: .*another authority/);
  });

  it('a certificate for another name, and for which it is', async () => {
    const said = await saidOf(await secureAt(await keysFor({ type: 'ip', value: '192.168.1.10' })));
    expect(said).toMatch(/^wrong_address: .*not for 127\.0\.0\.1:\d+: .*It is for 192\.168\.1\.10\./);
  });

  it('a certificate that ended, or is not good yet', async () => {
    expect(await saidOf(await secureAt(await keysFor(IP, NOW - 430 * DAY)))).toMatch(/^wrong_address: .*has ended/);
    expect(await saidOf(await secureAt(await keysFor(IP, NOW + 430 * DAY)))).toMatch(/^wrong_address: .*not good yet/);
  });

  it('a port that does not encrypt', async () => {
    const port = await portOf(createServer((_, response) => response.end()));
    expect(await saidOf(`https://127.0.0.1:${port}`)).toMatch(/^wrong_address: .*does not encrypt/);
  });

  it('a port at which nothing listens', async () => {
    const server = createServer();
    const port = await portOf(server);
    server.close();
    await once(server, 'close');
    expect(await saidOf(`https://127.0.0.1:${port}`)).toMatch(/^missing: Nothing listens at 127\.0\.0\.1/);
  });

  it('an answer of another version', async () => {
    expect(await saidOf(await secureAt(await keysFor(IP), [200, '{}']))).toMatch(/^conflict: .*same version/);
  });
});

describe('the six words', () => {
  it('let the one certificate in that has them, whoever vouches for the line, and no other', async () => {
    const certificate = certificateOf(file, 'authority');
    if (!certificate) throw new Error('There is no authority.');
    const words = wordsOf(certificate);
    expect(words.split(' ')).toHaveLength(6);
    const address = await secureAt(await keysFor(IP), [200, ca[0] ?? '']);
    expect(await authorityByWords(address, words.toUpperCase())).toEqual({ ok: true, value: ca[0] });
    const wrong = words.replace(/^\w+/, (word) => (word === 'acorn' ? 'zebra' : 'acorn'));
    expect(await authorityByWords(address, wrong)).toMatchObject({ ok: false, code: 'not_allowed' });
    expect(await authorityByWords(address, words.split(' ').slice(0, 5).join(' '))).toMatchObject({ ok: false });
  });
});
