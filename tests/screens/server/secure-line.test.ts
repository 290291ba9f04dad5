import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { connect } from 'node:net';
import { connect as connectSecurely } from 'node:tls';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { makeCertificate } from '#db/certificate/certificate.ts';
import { certificateFile } from '#db/certificate/names.ts';
import { makeCode } from '#db/sign-in/credentials.ts';
import { openStore } from '#db/sign-in/store.ts';
import { HALL_HOST, newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { freePort, raw } from '#tests/screens/support/http.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { workerIn } from '#tests/screens/support/worker.ts';
import { accepted, giveTo } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

/** The staff's encrypted line: what OpenSSL's client says of it, and a worker's way over it. */
const bookFile = tempFile();
let server: Server;
let port: number;
let secure: string;
let ca: string;
let workerId: number;
let plainToken: string;

beforeAll(async () => {
  const worker = workerIn(bookFile, 'Wren Tallow');
  workerId = worker.id;
  plainToken = worker.token;
  const book = openBook(bookFile);
  const input = { hosts: [HALL_HOST], plainStaff: false };
  accepted(giveTo(book, 'network.set', { input, worker: 'a test', key: 'the hall has a name' }));
  expect(await makeCertificate(book, new Date())).toMatchObject({ ok: true });
  book.close();
  ca = readFileSync(certificateFile(bookFile, 'authority'), 'utf8');
  port = await freePort();
  secure = `https://127.0.0.1:${port}`;
  server = await startServer({ bookFile, openLine: false, env: { SECURE_PORT: String(port) } });
});

afterAll(() => server?.stop());

function code(): string {
  const [book, store] = [openBook(bookFile), openStore(bookFile)];
  const made = makeCode({ book, store }, workerId, Date.now());
  store.close();
  book.close();
  return made;
}

async function openssl(...more: string[]): Promise<string> {
  const args = ['s_client', '-connect', `127.0.0.1:${port}`, '-CAfile', certificateFile(bookFile, 'authority')];
  const child = spawn('openssl', [...args, '-verify_ip', '127.0.0.1', '-brief', ...more]);
  child.stdin.end();
  let said = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (part) => (said += part));
  await once(child, 'close');
  return said;
}

const signIn = (headers: Record<string, string> = {}) => {
  const own = { 'content-type': 'application/json', 'x-station': 'sign-in', origin: secure, ...headers };
  return raw(`${secure}/api/sign-in`, { method: 'POST', headers: own, body: JSON.stringify({ code: code() }), ca });
};

describe('the encrypted line, as OpenSSL sees it', () => {
  it('is TLS 1.3 with a certificate that our authority vouches for', async () => {
    const said = await openssl();
    expect(said).toContain('Protocol version: TLSv1.3');
    expect(said).toContain('Verification: OK');
  });

  it('takes TLS 1.2, and nothing older', async () => {
    expect(await openssl('-tls1_2')).toContain('Protocol version: TLSv1.2');
    for (const old of ['-tls1', '-tls1_1']) {
      expect(await openssl(old, '-cipher', 'DEFAULT:@SECLEVEL=0'), old).not.toContain('Protocol version');
    }
  });
});

describe('a worker on the encrypted line', () => {
  it('is given a cookie that no plain line, no script and no other site ever gets', async () => {
    const { status, headers } = await signIn();
    expect(status).toBe(200);
    const [cookie] = headers['set-cookie'] ?? [];
    expect(cookie).toMatch(/^__Host-peltry=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict; Max-Age=\d+; Secure$/);
    const sent = { cookie: cookie?.split(';')[0] ?? '' };
    const page = await raw(`${secure}/office`, { headers: sent, ca });
    expect([page.status, page.headers['cross-origin-opener-policy']]).toEqual([200, 'same-origin']);
    expect(page.text).not.toContain('Open line');
    const { pathname } = new URL((await raw(`${server.url}/office`, { headers: sent })).headers.location ?? '', secure);
    expect(pathname).toBe('/sign-in');
  });

  it('is a stranger there with what an open line was given', async () => {
    const headers = { cookie: `peltry-plain=${plainToken}` };
    expect((await raw(`${server.url}/office`, { headers })).status).toBe(200);
    expect((await raw(`${secure}/office`, { headers, ca })).status).toBe(307);
  });

  it('ends the session of the cookie that a new sign-in finds', async () => {
    const first = { cookie: (await signIn()).headers['set-cookie']?.[0]?.split(';')[0] ?? '' };
    expect((await raw(`${secure}/office`, { headers: first, ca })).status).toBe(200);
    expect((await signIn(first)).status).toBe(200);
    expect((await raw(`${secure}/office`, { headers: first, ca })).status).toBe(307);
  });

  it('signs in from our own pages of this line only', async () => {
    for (const origin of [server.url, `https://${HALL_HOST}:${port}`, 'null']) {
      expect((await signIn({ origin })).status, origin).toBe(403);
    }
  });
});

describe('requests for another protocol', () => {
  const WISH = 'GET /nothing HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n\r\n';
  const own = { host: '127.0.0.1', allowHalfOpen: true };
  const lines = {
    open: () => connect({ ...own, port: Number.parseInt(new URL(server.url).port, 10) }),
    encrypted: () => connectSecurely({ ...own, port, ca }),
  };

  // On the open line more than it has room for, none of which is let go of at this end.
  it.each([
    ['open', 1100],
    ['encrypted', 300],
  ] as const)('hold no socket of the %s line: it goes on to answer', async (line, many) => {
    const ask = () => raw(`${line === 'open' ? server.url : secure}/board`, { ca });
    expect((await ask()).status).toBe(200);
    const callers = [];
    for (let sent = 0; sent < many; sent += 1) {
      const caller = lines[line]().on('error', () => undefined);
      callers.push(caller.resume());
      caller.write(WISH);
      await once(caller, 'end', { signal: AbortSignal.timeout(20_000) });
    }
    expect((await ask()).status).toBe(200);
    for (const caller of callers) caller.destroy();
  });
});

describe('a browser in the hall', () => {
  it('is led from the open line to the encrypted one, and works there without a fault', async () => {
    const page = await newPage(await theBrowser(), { ignoreHTTPSErrors: true });
    await page.goto(`${server.hallUrl}/intake`);
    await page.getByRole('link', { name: `https://${HALL_HOST}:${port}/sign-in` }).click();
    await page.getByLabel('One-time code').fill(code());
    await page.getByRole('button', { name: 'Use the code' }).click();
    await page.getByRole('link', { name: 'Wren Tallow' }).waitFor();
    expect(new URL(page.url()).origin).toBe(`https://${HALL_HOST}:${port}`);
    const cookies = await page.context().cookies();
    // What else stands there says only which entries this browser has seen.
    const own = cookies.filter(({ name }) => !name.startsWith('peltry-look-'));
    expect(own).toMatchObject([{ name: '__Host-peltry', secure: true, httpOnly: true }]);
    expect(cookies.every(({ httpOnly }) => httpOnly)).toBe(true);
    await page.goto(`${server.hallUrl}/board`);
    expect(await page.evaluate(() => document.cookie)).toBe('');
  });
});
