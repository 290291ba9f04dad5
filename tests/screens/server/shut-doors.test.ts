import { once } from 'node:events';
import { type IncomingMessage, request } from 'node:http';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import type { Station } from '#db/book/command.ts';
import { openBook } from '#db/book/open.ts';
import type { CommandName } from '#db/commands.ts';
import { raw, wordsOf } from '#tests/screens/support/http.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { workerIn } from '#tests/screens/support/worker.ts';
import { tempFile } from '#tests/support/temp.ts';

/** What ends a device's way in, over HTTP alone: the server decides, whatever the device shows. */

const bookFile = tempFile();
let server: Server;
let office = '';
let sent = 0;

const cookieOf = (token: string) => `peltry-plain=${token}`;
const enter = (name: string, stations: readonly Station[]) => workerIn(bookFile, name, { stations });

beforeAll(async () => {
  fillSellingBook(bookFile, { lots: 3 }).close();
  office = cookieOf(enter('Ada', ['office']).token);
  server = await startServer({ bookFile });
});
afterAll(() => server?.stop());

async function say(path: string, body: object, cookie = office, station = 'office') {
  sent += 1;
  const headers = {
    ...{ 'content-type': 'application/json', 'idempotency-key': `shut-doors-${sent}`, 'x-station': station },
    ...{ origin: server.url, cookie },
  };
  const { status, text } = await raw(`${server.url}${path}`, { method: 'POST', headers, body: JSON.stringify(body) });
  return { status, said: JSON.parse(text) as { ok?: boolean; code?: string; key?: string } };
}
const give = (command: CommandName, input: object) => say(`/api/commands/${command}`, input);
/** Opens a stream of events; `ended` comes when the server has ended it. */
async function listen(cookie: string) {
  const sent = request(`${server.url}/api/live`, { headers: { cookie }, agent: false });
  sent.end();
  const [answer] = (await once(sent, 'response')) as [IncomingMessage];
  onTestFinished(() => void sent.destroy());
  // The others are broken off by the end of the test.
  answer.on('error', () => undefined).resume();
  const ended = new Promise<number>((resolve) => answer.once('end', () => resolve(performance.now())));
  return { ended, isOpen: () => !answer.readableEnded };
}
const statusOf = async (path: string, cookie: string) =>
  (await raw(`${server.url}${path}`, { headers: { cookie } })).status;

it.each([
  [
    'another passphrase',
    (workerId: number) => give('worker.passphrase', { workerId, passphrase: 'four wet boots drying' }),
  ],
  ['a withdrawn station', (workerId: number) => give('worker.amend', { workerId, stations: ['till'], hasLeft: false })],
  ['leaving', (workerId: number) => give('worker.amend', { workerId, stations: ['till', 'payout'], hasLeft: true })],
  ['the office', (allOf: number) => say('/api/sign-out', { allOf })],
] as const)('%s shuts out a cookie with its very next request, and ends what it listens to', async (what, end) => {
  const { id, token } = enter(`Odo, ${what}`, ['till', 'payout']);
  const cookie = cookieOf(token);
  expect(await statusOf('/api/views/people?q=a', cookie)).toBe(200);
  const [theirs, another, guest] = [await listen(cookie), await listen(office), await listen('')];
  const began = performance.now();
  expect((await end(id)).said).toMatchObject({ ok: true });
  const ms = (await theirs.ended) - began;
  if (process.env.PELTRY_TIMED) expect(ms).toBeLessThan(1000);
  expect([another.isOpen(), guest.isOpen()]).toEqual([true, true]);
  expect(await statusOf('/api/views/people?q=a', cookie)).toBe(401);
  expect((await say('/api/commands/person.enrol', { name: 'Dot Fenn' }, cookie, 'till')).status).toBe(401);
  const book = openBook(bookFile);
  expect(
    JSON.stringify(book.sqlite.prepare("SELECT input FROM log WHERE command LIKE 'worker.%'").all()),
  ).not.toContain('scrypt');
  book.close();
});

it('a laptop is paired once by a code, waits for lines, and is shut out the moment its key is taken away', async () => {
  const { code } = (await say('/api/office/laptops', {})).said;
  const paired = await say('/api/follow/pair', { code, name: 'the old\u202e laptop' }, '', 'sign-in');
  expect(paired.said).toMatchObject({ ok: true, key: expect.stringMatching(/^[0-9a-f]{64}$/) });
  expect((await say('/api/follow/pair', { code, name: 'another' }, '', 'sign-in')).status).toBe(403);
  const headers = { authorization: `Bearer ${paired.said.key}` };
  const lines = await raw(`${server.url}/api/follow?after=0&wait=no`, { headers });
  expect(lines.status).toBe(200);
  const { head } = JSON.parse(lines.text) as { head: number };
  const waiting = raw(`${server.url}/api/follow?after=${head}`, { headers });
  expect((await say('/api/office/laptops', { revoke: 1 })).said).toMatchObject({ ok: true });
  expect((await waiting).status).toBe(401);
  expect((await raw(`${server.url}/api/follow?after=0&wait=no`, { headers })).status).toBe(401);
});

it('the Block is told no address and no phone, and a person’s whole file leaves a note', async () => {
  const block = cookieOf(enter('Bea', ['block']).token);
  for (const path of ['views/people?q=a', 'papers/purchase-record/csv?buyer=10', 'papers/purchase-record?buyer=10'])
    expect(await statusOf(`/api/${path}`, block), path).toBe(403);
  for (const path of [
    'papers/receipt?seller=1',
    'papers/tag-list',
    'papers/invoice?buyer=10',
    'office/person?person=1',
  ])
    expect(await statusOf(`/api/${path}`, block), path).toBe(403);
  const doors = async () =>
    wordsOf((await raw(`${server.url}/office/doors`, { headers: { cookie: office } })).text).split('whose record')[1];
  expect(await doors()).toMatch(/^ Nobody\./);
  const looks = [
    'api/office/person?person=1',
    'office/log?person=1',
    'api/office/log?person=1',
    'office/people?find=a',
  ];
  for (const path of looks) expect(await statusOf(`/${path}`, office), path).toBe(200);
  // What a browser fetches ahead of a press is no look; nor is the log of everybody.
  const ahead = { cookie: office, 'next-router-prefetch': '1', rsc: '1' };
  await raw(`${server.url}/office/log?person=2`, { headers: ahead });
  expect(await statusOf('/office/log', office)).toBe(200);
  const told = await doors();
  for (const words of [/Ada .+ whole file 1 /, /Ada .+ log 2 /, /Ada .+ card 1 /]) expect(told).toMatch(words);
});
