import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { networkInterfaces } from 'node:os';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { programFile } from '#app/server/programs.mjs';
import { certificateFile, certificateOf } from '#db/certificate/names.ts';
import { makePairing } from '#db/follow/laptops.ts';
import { openStore } from '#db/sign-in/store.ts';
import { freePort, raw, wordsOf as wordsOfPage } from '#tests/screens/support/http.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { workerIn } from '#tests/screens/support/worker.ts';
import { openHall } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

/** A hall that is opened, joined, loses its laptop, and goes on: what a device that trusts only the first one sees. */
const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const [first, second] = [tempFile('first.book'), tempFile('second.book')];
const ADDRESS = Object.values(networkInterfaces())
  .flatMap((all) => all ?? [])
  .find(({ internal, family }) => !internal && family === 'IPv4')?.address;
let server: Server;
let cookie: string;
let securePort: number;
let ca: string;
const children: ChildProcess[] = [];

beforeAll(async () => {
  openHall({ file: first }).book.close();
  cookie = `peltry-plain=${workerIn(first, 'Ada', { stations: ['office'] }).token}`;
  securePort = await freePort();
  server = await startServer({ bookFile: first, openLine: false, env: { SECURE_PORT: String(securePort) } });
});
afterAll(async () => {
  for (const child of children) child.kill('SIGKILL');
  await server?.stop();
});

/** Runs the command line until it ends, or until it has said something; gives all of it. */
async function says(words: readonly string[], until?: string): Promise<string> {
  const child = spawn(process.execPath, [programFile('cli'), ...words], { cwd: ROOT });
  children.push(child);
  let said = '';
  for (const output of [child.stdout, child.stderr]) output.on('data', (part) => (said += part));
  if (until === undefined) await once(child, 'close');
  else {
    await expect.poll(() => said).toContain(until);
    child.kill('SIGINT');
    await once(child, 'close');
  }
  return said;
}

const openByOffice = (url: string, own: string) =>
  raw(`${url}/api/office/hall`, {
    ...{ method: 'POST', body: JSON.stringify({ open: true }) },
    headers: { 'content-type': 'application/json', 'x-station': 'office', origin: url, cookie: own },
  });

function codeForLaptop(): string {
  const store = openStore(first);
  const code = makePairing(store, Date.now());
  store.close();
  return code;
}

describe('the hall', () => {
  it('is opened at the office: a certificate is made, and the encrypted line answers at once', async () => {
    expect(certificateOf(first, 'authority')).toBeUndefined();
    expect(JSON.parse((await openByOffice(server.url, cookie)).text)).toEqual({ ok: true });
    ca = readFileSync(certificateFile(first, 'authority'), 'utf8');
    expect((await raw(`https://127.0.0.1:${securePort}/board`, { ca })).status).toBe(200);
    const page = wordsOfPage((await raw(`${server.url}/office/network`, { headers: { cookie } })).text);
    expect(page).toContain('Everybody joins at');
    expect(page).toMatch(/Its six words: (\w+ ){6}/);
    expect(page).not.toContain('The certificate is not for');
  });

  it('is open again after a power cut, with nothing typed but the start', async () => {
    await server.kill();
    await server.restart();
    expect((await raw(`https://127.0.0.1:${securePort}/board`, { ca })).status).toBe(200);
    await expect.poll(() => server.log()).toContain('For the whole hall');
    const paper = await raw(`${server.url}/api/papers/join-card`, { headers: { cookie } });
    expect([paper.status, paper.headers['content-type']]).toEqual([
      ADDRESS ? 200 : 404,
      ADDRESS ? 'application/pdf' : paper.headers['content-type'],
    ]);
  });

  it('is joined by a card on the open line, for the very device: real address, certificate, and what may be tried', async () => {
    const agent = { 'user-agent': 'Mozilla/5.0 (iPhone; CPU iPhone OS 19_0 like Mac OS X)' };
    const { text, headers, status } = await raw(`${server.url}/join`, { headers: agent });
    expect([status, headers['set-cookie']]).toEqual([200, undefined]);
    expect(text).toMatch(/<details open=""><summary>iPhone or iPad/);
    if (ADDRESS) expect(wordsOfPage(text)).toContain(ADDRESS);
    expect(headers['content-security-policy']).toContain(`connect-src 'self' https://*:${securePort}`);
    expect((await raw(`${server.url}/board`)).headers['content-security-policy']).not.toContain('connect-src');
    const tried = await raw(`https://127.0.0.1:${securePort}/api/join`, { ca });
    expect(tried.headers['access-control-allow-origin']).toBe('*');
    expect(Math.abs(JSON.parse(tried.text).now - Date.now())).toBeLessThan(60_000);
    expect((await raw(`${server.url}/api/authority`)).text).toBe(ca);
    const help = wordsOfPage((await raw(`${server.url}/help/network`)).text);
    expect(help).toContain('Join with this device');
  });

  it('goes on after its laptop is lost: the second one leads under the same authority, in one act and one start', async () => {
    const address = `https://127.0.0.1:${securePort}`;
    const pairing = ['follow', address, '--book', second, '--code', codeForLaptop()];
    expect(await says(pairing)).toContain('Give the six words');
    const page = wordsOfPage((await raw(`${server.url}/join`)).text);
    const words = /same there: ((?:\w+ ){6})/.exec(page)?.[1]?.trim() ?? '';
    expect(await says([...pairing, '--words', words.replace(/^\w+/, 'acorn zebra')])).toContain('not the words');
    const followed = await says([...pairing, '--words', words], 'Caught up at line');
    expect(followed).toContain('devices that trust the one trust this one too');
    await server.kill();
    const over = await says(['take-over', '--book', second]);
    expect(over).toContain('One thing is left to do');
    expect(over).toContain('npm start -- --hall');

    // As `npm start -- --hall` does; nobody of the office is needed.
    const ports = ['--port', String(await freePort()), '--secure-port', String(securePort)];
    const env = { ...process.env, PELTRY_BOOK: second, PELTRY_BACKUP_MINUTES: '0' };
    const child = spawn(process.execPath, ['app/server/serve.mjs', ...ports, '--hall'], { cwd: ROOT, env });
    children.push(child);
    let printed = '';
    child.stdout.on('data', (part) => (printed += part));
    await expect.poll(() => printed).toContain('For the whole hall');
    expect(printed).toContain(`The six words: ${words}\n`);
    // A device that knows nothing but the first laptop's authority, at this one's own address.
    const host = ADDRESS ?? '127.0.0.1';
    expect((await raw(`https://${host}:${securePort}/board`, { ca })).status).toBe(200);
    expect(certificateOf(second, 'authority')?.fingerprint256).toBe(certificateOf(first, 'authority')?.fingerprint256);
    expect(certificateOf(second, 'server')?.fingerprint256).not.toBe(certificateOf(first, 'server')?.fingerprint256);
  });
});
