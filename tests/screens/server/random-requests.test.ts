import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { Agent, type IncomingMessage, request } from 'node:http';
import { Agent as SecureAgent, request as secureRequest } from 'node:https';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { logHead } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { makeCertificate } from '#db/certificate/certificate.ts';
import { certificateFile } from '#db/certificate/names.ts';
import { PAGES, ROUTES } from '#tests/screens/support/addresses.ts';
import { freePort } from '#tests/screens/support/http.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { workerIn } from '#tests/screens/support/worker.ts';
import { type Chance, chanceOf } from '#tests/support/random.ts';
import { tempFile } from '#tests/support/temp.ts';

/** RANDOM_REQUESTS=50000 by hand: so many on each line. */
const MANY = Number.parseInt(process.env.RANDOM_REQUESTS ?? '500', 10);
const SEED = Number.parseInt(process.env.RANDOM_SEED ?? '', 10) || Date.now() % 2 ** 31;
const AT_ONCE = 8;
/** What a process of Node takes and gives back as it likes. */
const MEMORY_MB = 200;

const bookFile = tempFile();
let server: Server;
let cookies: string[] = [];
let lines: Readonly<Record<string, { readonly url: string; readonly ca?: string }>> = {};

beforeAll(async () => {
  fillSellingBook(bookFile, { lots: 6 }).close();
  const { token } = workerIn(bookFile, 'Ada');
  cookies = [
    `peltry-plain=${token}`,
    `__Host-peltry=${token}`,
    'peltry-own=x',
    'a=%ff; b',
    '=',
    `x=${'y'.repeat(3000)}`,
  ];
  const book = openBook(bookFile);
  expect(await makeCertificate(book, new Date())).toMatchObject({ ok: true });
  book.close();
  const port = await freePort();
  server = await startServer({ bookFile, env: { SECURE_PORT: String(port) } });
  const ca = readFileSync(certificateFile(bookFile, 'authority'), 'utf8');
  lines = { open: { url: server.url }, encrypted: { url: `https://127.0.0.1:${port}`, ca } };
});
afterAll(() => server?.stop());

const PATHS = [
  ...PAGES,
  ...ROUTES.map(({ path }) => path),
  '/_next/static/x.js',
  '/_next/image',
  '/_next/data/x/board.json',
];
const PARTS = [
  '%ff',
  '%25',
  '%00',
  '%2e%2e',
  '..',
  '%5c',
  '%2f',
  '%252f',
  '\u00e9',
  '%e2%80%ae',
  '999999999999',
  '-1',
  '[x]',
].concat([
  '(.)',
  '__proto__',
  'constructor',
  '$',
  "'",
  '*',
  ';a=b',
  '%',
  '%zz',
  '/',
  '//',
  'x'.repeat(3000),
  '.rsc',
  '.txt',
]);
const QUERIES = [
  'sale=1',
  'sale=%ff',
  'sale=',
  'sale=1&sale=2',
  '_rsc=x',
  '%',
  'a[]=1',
  'find=%25',
  'no=1e9',
  'nxtPno=1',
  '=',
].concat([
  'my+raccoon+piece=-1',
  'size=%00',
  '__nextLocale=x',
  `find=${'z'.repeat(2000)}`,
  'seller=%e2%80%ae',
  'after=-1',
]);
const METHODS = ['GET', 'HEAD', 'POST', 'PUT', 'PATCH', 'DELETE', 'OPTIONS', 'TRACE', 'PROPFIND', 'PURGE'];
const TREE = encodeURIComponent('["",{"children":["board",{"children":["__PAGE__",{}]}]},null,null,16]');
const HEADERS: readonly (readonly [string, readonly string[]])[] = [
  ['rsc', ['1', '0', 'x']],
  ['next-action', ['x', '0'.repeat(42)]],
  [
    'next-router-state-tree',
    [TREE, '%', '[]', '["",{}]', 'null', '%5B%22%22%2C%7B%22x%22%3A1%7D%5D', 'x'.repeat(9000)],
  ],
  ['next-router-prefetch', ['1', '2', '3', 'x']],
  ['next-router-segment-prefetch', ['/_tree', '/board/__PAGE__', '/../x', '%ff', '/_index', '']],
  ['next-url', ['/board', '/%ff', '//x', 'x']],
  ['next-resume', ['1']],
  ['x-nextjs-data', ['1']],
  ['x-matched-path', ['/office', '/%ff']],
  ['x-middleware-subrequest', ['middleware:middleware', 'x']],
  ['x-invoke-path', ['/office']],
  ['x-invoke-status', ['500', '404']],
  ['x-now-route-matches', ['1=%ff']],
  ['x-forwarded-host', ['elsewhere.test', '%']],
  ['x-forwarded-proto', ['https', 'x']],
  ['x-http-method-override', ['DELETE']],
  ['x-station', ['office', 'sign-in', 'x']],
  ['idempotency-key', ['random-requests', '%', "'; --"]],
  ['x-worker', ['%ff', 'Ada', '%E2%80%AE']],
  ['origin', ['null', 'http://elsewhere.test', 'x']],
  ['sec-fetch-site', ['same-origin', 'cross-site', 'x']],
  [
    'content-type',
    ['application/json', 'multipart/form-data; boundary=x', 'multipart/form-data', 'text/plain', 'x/y; ='],
  ],
  ['accept', ['text/html', 'text/x-component', '*/*', '%']],
  ['accept-encoding', ['gzip', 'br;q=x', '*']],
  ['range', ['bytes=0-1', 'bytes=9-1', 'x']],
  ['if-none-match', ['*', 'W/"x"', 'x']],
  ['if-modified-since', ['x', 'Thu, 01 Jan 1970 00:00:00 GMT']],
  ['user-agent', ['\u00ff', 'Googlebot', 'x'.repeat(2000)]],
  ['purpose', ['prefetch']],
  ['expect', ['100-continue']],
];
const BODIES = [
  '',
  '{',
  'null',
  '[]',
  '{"code":"ABCD"}',
  '{"name":"Ada","passphrase":"x"}',
  '{"__proto__":{}}',
  'code=%ff',
  '\u0000',
].concat([
  '--x\r\nContent-Disposition: form-data; name="1_$ACTION_ID_x"\r\n\r\n\r\n--x--',
  '['.repeat(5000),
  'x'.repeat(70_000),
]);

interface Made {
  readonly path: string;
  readonly method: string;
  readonly headers: Record<string, string>;
  readonly body: string;
}

/** A made-up request; one with a worker's cookie only reads, so that the book stays as it is. */
function madeUp({ int, pick: one }: Chance): Made {
  const chance = (part: number) => int(1, 100) <= part * 100;
  const method = chance(0.6) ? 'GET' : one(METHODS);
  let path = one(PATHS).replace(/\bx$/, chance(0.3) ? one(PARTS) : 'x');
  if (chance(0.05)) path += `/${one(PARTS)}`;
  if (chance(0.03)) path = `/${one(PARTS)}${path}`;
  if (chance(0.3)) path += `?${one(QUERIES)}${chance(0.2) ? `&${one(QUERIES)}` : ''}`;
  const headers: Record<string, string> = {};
  for (let left = int(0, chance(0.2) ? 6 : 2); left > 0; left -= 1) {
    const [name, values] = one(HEADERS);
    headers[name] = chance(0.9) ? one(values) : one(PARTS.filter((part) => /^[\x20-\xff]*$/.test(part)));
  }
  if (method === 'GET' && chance(0.4)) headers.cookie = one(cookies);
  const body = method === 'GET' ? '' : one(BODIES);
  // Without its length a body would be taken for the next request.
  if (body !== '') headers['content-length'] = String(Buffer.byteLength(body));
  return { path: encodeIfNeeded(path), method, headers, body };
}

/** What cannot stand in a request line is written as UTF-8, as any client does. */
const encodeIfNeeded = (path: string) => path.replace(/[^\x21-\x7e]/g, (letter) => encodeURIComponent(letter));

const memory = () => {
  const status = readFileSync(`/proc/${server.pid()}/status`, 'utf8');
  return Math.round(Number(/VmRSS:\s+(\d+)/.exec(status)?.[1]) / 1024);
};

const head = () => {
  const book = openBook(bookFile);
  const { seq } = logHead(book);
  book.close();
  return seq;
};

describe(`made-up requests (RANDOM_SEED=${SEED})`, () => {
  it.each(['open', 'encrypted'])(
    'on the %s line are answered, never as a fault, and change nothing',
    { timeout: 7_200_000 },
    async (name) => {
      const { url, ca } = lines[name] ?? { url: '' };
      const agent = ca ? new SecureAgent({ keepAlive: true, ca }) : new Agent({ keepAlive: true });
      const chance = chanceOf(SEED + (ca ? 1 : 0));
      const [before, printed] = [head(), server.log().length];
      const statuses: Record<string, number> = {};
      const faults: string[] = [];
      const cut: string[] = [];
      const memories: number[] = [];
      let sent = 0;

      const send = async ({ path, method, headers, body }: Made) => {
        const options = { agent, method, headers, path };
        const asked = ca ? secureRequest(url, options) : request(url, options);
        // Also after its answer: what the server hangs up on is told below by what it was.
        asked.on('error', () => undefined);
        asked.end(body);
        const [answer] = (await once(asked, 'response')) as [IncomingMessage];
        const { statusCode = 0 } = answer;
        if (answer.headers['content-type'] === 'text/event-stream') answer.destroy();
        else for await (const _ of answer.resume());
        return statusCode;
      };
      const work = async () => {
        while (sent < MANY) {
          sent += 1;
          if (sent % Math.ceil(MANY / 10) === 0) memories.push(memory());
          const made = madeUp(chance);
          const status = await send(made).catch((fault: Error) => fault.message);
          if (typeof status === 'string') cut.push(`${status} ${JSON.stringify(made).slice(0, 300)}`);
          statuses[status] = (statuses[status] ?? 0) + 1;
          if (typeof status === 'number' && status >= 500)
            faults.push(`${status} ${JSON.stringify(made).slice(0, 400)}`);
        }
      };
      await Promise.all(Array.from({ length: AT_ONCE }, work));
      agent.destroy();
      console.log(`${MANY} on the ${name} line: ${JSON.stringify(statuses)}; MB of memory: ${memories.join(' ')}`);
      expect([faults, cut]).toEqual([[], []]);
      expect(server.log().slice(printed)).toBe('');
      expect(Math.max(...memories.slice(5)) - Math.max(...memories.slice(0, 5))).toBeLessThan(MEMORY_MB);
      expect((await fetch(`${server.url}/board`)).status).toBe(200);
      expect(head()).toBe(before);
    },
  );
});
