import { readFileSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ROOM } from '#app/server/guard/shares.ts';
import { openBook } from '#db/book/open.ts';
import { makeCertificate } from '#db/certificate/certificate.ts';
import { certificateFile } from '#db/certificate/names.ts';
import { storePassphrase } from '#db/sign-in/passphrases.ts';
import { openStore } from '#db/sign-in/store.ts';
import { ask, type Crowd, crowd, type Line } from '#tests/screens/support/crowd.ts';
import { freePort, raw, wordsOf } from '#tests/screens/support/http.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { workerIn } from '#tests/screens/support/worker.ts';
import { accepted, giveTo } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

/** One phone against the whole hall: 127.0.0.2 attacks, 127.0.0.3 is another guest, 127.0.0.1 the machine itself. */
const [PHONE, GUEST, MACHINE, OTHER_PHONE] = ['127.0.0.2', '127.0.0.3', '127.0.0.1', '127.0.0.4'];
const PASSPHRASE = 'three dry pelts hanging';
/** What somebody in the hall waits at most, in milliseconds: held only with PELTRY_TIMED, on a machine that does nothing else. */
const WAITS = { board: 1000, signIn: 3000 };
const inTime = (ms: number, most: number, what: string) => {
  if (process.env.PELTRY_TIMED) expect(ms, what).toBeLessThan(most);
};

const bookFile = tempFile();
let server: Server;
let token = '';
let lines: Readonly<Record<'open' | 'encrypted', Line>>;

beforeAll(async () => {
  fillSellingBook(bookFile, { lots: 6 }).close();
  token = workerIn(bookFile, 'Ada').token;
  const book = openBook(bookFile);
  const store = openStore(bookFile);
  const said = { words: PASSPHRASE, key: 'a key of this test', now: Date.now() };
  const mark = await storePassphrase({ book, store }, said);
  store.close();
  if (!mark.ok) throw new Error(mark.message);
  for (const name of ['Wren', 'Odo', 'Bea'])
    accepted(
      giveTo(book, 'worker.add', {
        input: { name, passphraseMark: mark.value, stations: ['till'] },
        worker: 'a test',
        key: name,
      }),
    );
  expect(await makeCertificate(book, new Date())).toMatchObject({ ok: true });
  book.close();
  const port = await freePort();
  server = await startServer({ bookFile, env: { SECURE_PORT: String(port) } });
  const ca = readFileSync(certificateFile(bookFile, 'authority'), 'utf8');
  lines = { open: { port: Number(new URL(server.url).port) }, encrypted: { port, ca } };
  // The first of each loads what it needs.
  for (const line of Object.values(lines)) await ask(line, '/board', { from: GUEST });
  await signIn('Wren', GUEST);
  const { ms: board } = await ask(lines.open, '/board', { from: GUEST });
  const { ms } = await signIn('Wren', GUEST);
  console.log(`Quiet: Board ${board.toFixed()} ms, sign-in ${ms.toFixed()} ms`);
});
afterAll(() => server?.stop());

const origin = () => `http://127.0.0.1:${lines.open.port}`;

function signIn(name: string, from: string, passphrase = PASSPHRASE) {
  const headers = { 'content-type': 'application/json', 'x-station': 'sign-in', origin: origin() };
  return ask(lines.open, '/api/sign-in', { from, method: 'POST', headers, body: JSON.stringify({ name, passphrase }) });
}

/** The Board at the machine and at another guest on both lines, and another guest's sign-in, while something goes on. */
async function othersAreServed(what: string): Promise<void> {
  const said: string[] = [];
  for (const [name, line] of Object.entries(lines)) {
    for (const from of [MACHINE, GUEST]) {
      const board = await ask(line, '/board', { from });
      expect(board.status, `${what}: ${from}`).toBe(200);
      inTime(board.ms, WAITS.board, `${what}: ${from}`);
      expect((await ask(line, '/api/live', { from })).text).toMatch(/^data: \{"line":\d+/);
      said.push(`${name} ${from} ${board.ms.toFixed()}`);
    }
  }
  const { status, ms } = await signIn('Wren', GUEST);
  expect([status, what]).toEqual([200, what]);
  inTime(ms, WAITS.signIn, what);
  console.log(`${what}: Board in ms: ${said.join(', ')}; sign-in ${ms.toFixed()} ms`);
}

const get = (path: string, more = '') => `GET ${path} HTTP/1.1\r\nHost: 127.0.0.1\r\n${more}\r\n`;
const post = (path: string, more: string) =>
  `POST ${path} HTTP/1.1\r\nHost: 127.0.0.1\r\nOrigin: ${origin()}\r\n${more}`;

describe('one phone that wants all', () => {
  const attacks: readonly (readonly [string, number, () => string])[] = [
    ['1,000 upgrades', 1000, () => get('/', 'Connection: Upgrade\r\nUpgrade: websocket\r\n')],
    ['1,010 streams', 1010, () => get('/api/live')],
    ['200 headers that trickle in', 200, () => 'GET /board HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Slow: '],
    ['200 bodies that trickle in', 200, () => post('/api/commands/lot.add', 'Content-Length: 999\r\n\r\n{')],
    ['200 times the prices as a paper', 200, () => get('/prices/report/pdf')],
    ['64 times 200 pages one after another', 64, () => get('/prices').repeat(200)],
  ];

  it.each(attacks)('with %s keeps nobody else out of either line', async (what, many, text) => {
    const crowds: Crowd[] = [];
    for (const line of Object.values(lines)) crowds.push(await crowd(line, PHONE, many, text()));
    await othersAreServed(what);
    const held = crowds.reduce((sum, { open }) => sum + open(), 0);
    expect(held).toBeLessThanOrEqual(ROOM.sockets);
    for (const { leave } of crowds) leave();
    await sleep(50);
  });

  it('has as many streams as its share, and the machine itself more', async () => {
    const answers = async (from: string, many: number) => {
      const statuses: number[] = [];
      const held = await crowd(lines.open, from, many, get('/api/live'));
      for (const socket of held.sockets) socket.on('data', (part) => statuses.push(Number(String(part).slice(9, 12))));
      await expect.poll(() => statuses.filter((one) => one > 0).length).toBeGreaterThanOrEqual(many);
      held.leave();
      await sleep(50);
      return {
        taken: statuses.filter((one) => one === 200).length,
        refused: statuses.filter((one) => one === 503).length,
      };
    };
    // Not the phone of before, whose share of new sockets the attacks may have used up.
    expect(await answers(OTHER_PHONE, 40)).toEqual({ taken: ROOM.streams, refused: 40 - ROOM.streams });
    expect(await answers(MACHINE, 40)).toEqual({ taken: 40, refused: 0 });
  });

  it('with twelve guesses at once delays nobody’s right passphrase, not even under the same name', async () => {
    const guesses = Array.from({ length: 12 }, (_, at) => signIn('Odo', PHONE, `a wrong guess ${at}`));
    await sleep(20);
    const right = [await signIn('Bea', GUEST), await signIn('Odo', GUEST)];
    console.log(`Twelve guesses: right passphrases in ${right.map(({ ms }) => `${ms.toFixed()} ms`).join(', ')}`);
    for (const { status, ms } of right) {
      expect(status).toBe(200);
      inTime(ms, WAITS.signIn, 'twelve guesses');
    }
    expect((await Promise.all(guesses)).every(({ status }) => status === 403 || status === 409)).toBe(true);
  });

  it('cannot wash out the list of sign-ins, nor fill the terminal', async () => {
    const printed = server.log().length;
    const headers = { 'content-type': 'application/json', 'x-station': 'sign-in', origin: origin() };
    const body = JSON.stringify({ code: 'ABCD-EFGH-JKMN' });
    const statuses: number[] = [];
    for (let tries = 0; tries < 60; tries += 1) {
      const { status } = await ask(lines.open, '/api/sign-in', { from: '127.0.0.4', method: 'POST', headers, body });
      statuses.push(status);
    }
    expect(statuses.slice(0, 25).every((status) => status === 403)).toBe(true);
    expect(statuses).toContain(429);
    const { sqlite, close } = openStore(bookFile);
    const counted = "SELECT what, times FROM refused_try WHERE client = '127.0.0.4'";
    expect(sqlite.prepare(counted).all()).toEqual([
      { what: 'wrong code', times: statuses.filter((status) => status === 403).length },
    ]);
    expect(sqlite.prepare("SELECT count(*) FROM happening WHERE what NOT IN ('signed in')").pluck().get()).toBe(0);
    close();
    expect(server.log().slice(printed)).toBe('');
  });
});

describe('the page of the network', () => {
  it('says which address was turned away how often', async () => {
    const { text } = await raw(`${server.url}/office/network`, { headers: { cookie: `peltry-plain=${token}` } });
    expect(wordsOf(text)).toMatch(/this machine \d+ \d+ \d+/);
    expect(wordsOf(text)).toMatch(/127\.0\.0\.2 \d+ \d+ \d{3,}/);
  });
});
