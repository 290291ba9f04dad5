import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Station } from '#db/book/command.ts';
import { openBook } from '#db/book/open.ts';
import { openStore } from '#db/sign-in/store.ts';
import { raw } from '#tests/screens/support/http.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { workerIn } from '#tests/screens/support/worker.ts';
import { accepted, giveTo } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

/** What the office says of a worker, and the devices on which that worker is signed in. */
const bookFile = tempFile();
let server: Server;
let office = '';

beforeAll(async () => {
  fillSellingBook(bookFile, { lots: 3 }).close();
  office = `peltry-plain=${workerIn(bookFile, 'Wren Tallow').token}`;
  server = await startServer({ bookFile });
});

afterAll(() => server?.stop());

let sent = 0;
const own = (station: Station): Record<string, string> => {
  sent += 1;
  const key = `sign-in-ends-${sent}`;
  return { 'content-type': 'application/json', 'idempotency-key': key, 'x-station': station, origin: server.url };
};
const get = (path: string, cookie: string) => raw(`${server.url}${path}`, { headers: { cookie } });
const give = async (command: string, station: Station, cookie: string) => {
  const headers = { ...own(station), cookie };
  return (await raw(`${server.url}/api/commands/${command}`, { method: 'POST', headers, body: '{}' })).status;
};

const PASSPHRASES = ['three dry pelts hanging', 'four wet boots drying', 'five old hats on pegs'] as const;
const [FIRST, SECOND, THIRD] = PASSPHRASES;
let made = 0;

/** A worker of Till and Payout, with a device on which they are signed in. */
function somebody() {
  made += 1;
  const name = `Odo ${made}`;
  const { id, token } = workerIn(bookFile, name, { stations: ['till', 'payout'] });
  return { id, name, device: `peltry-plain=${token}` };
}

const say = async (path: string, body: object, cookie = office) => {
  const answer = await raw(`${server.url}${path}`, {
    method: 'POST',
    headers: { ...own('office'), cookie },
    body: JSON.stringify(body),
  });
  expect(answer.status, answer.text).toBe(200);
  return answer;
};
const amend = (workerId: number, stations: readonly Station[], hasLeft = false) =>
  say('/api/commands/worker.amend', { workerId, stations, hasLeft });

/** What a device gets at a page, a read and a command of a station. */
const at = async (station: 'till' | 'payout', cookie: string) => {
  const page = await get(`/${station}`, cookie);
  const read = await get('/api/views/people?find=a', cookie);
  return { page: page.status, read: read.status, command: await give('payment.void', station, cookie) };
};
const IN = { page: 200, read: 200, command: 422 };
const OUT = { page: 307, read: 401, command: 401 };
const signedIn = async (name: string, passphrase: string) => {
  const { headers } = await say('/api/sign-in', { name, passphrase }, '');
  return headers['set-cookie']?.[0]?.split(';')[0] ?? '';
};
const kept = (id: number) => {
  const { sqlite, close } = openStore(bookFile);
  const count = sqlite.prepare('SELECT count(*) FROM session WHERE worker_id = ?').pluck().get(id);
  close();
  return count;
};

describe('a sign-in', () => {
  it('goes on where a station is added', async () => {
    const { id, device } = somebody();
    await amend(id, ['till', 'payout', 'intake']);
    for (const station of ['till', 'payout'] as const) expect(await at(station, device)).toEqual(IN);
    expect((await get('/intake', device)).status).toBe(200);
  });

  it('ends on every device with a passphrase that the office gives', async () => {
    const { id, name, device } = somebody();
    await say('/api/commands/worker.passphrase', { workerId: id, passphrase: FIRST });
    expect(await at('till', device)).toEqual(OUT);
    const [here, there] = [await signedIn(name, FIRST), await signedIn(name, FIRST)];
    expect(await at('till', there)).toEqual(IN);
    await say('/api/commands/worker.passphrase', { workerId: id, passphrase: SECOND });
    for (const one of [here, there]) expect(await at('till', one)).toEqual(OUT);
    expect(kept(id)).toBe(0);
  });

  it('ends on the other devices of whoever changes their own, and stays on this one', async () => {
    const { id, name } = somebody();
    await say('/api/commands/worker.passphrase', { workerId: id, passphrase: FIRST });
    const [here, there] = [await signedIn(name, FIRST), await signedIn(name, FIRST)];
    await say('/api/sign-in/passphrase', { old: FIRST, passphrase: THIRD }, here);
    expect([await at('till', here), await at('till', there)]).toEqual([IN, OUT]);
    await amend(id, ['till', 'payout', 'office']);
    expect(await at('payout', here)).toEqual(IN);
  });

  it('ends with a station that is withdrawn, and does not come back with it', async () => {
    const { id, device } = somebody();
    await amend(id, ['till']);
    for (const station of ['till', 'payout'] as const) expect(await at(station, device), station).toEqual(OUT);
    await amend(id, ['till', 'payout']);
    expect(await at('payout', device)).toEqual(OUT);
    expect(kept(id)).toBe(0);
  });

  it('ends with leaving, and coming back does not revive it', async () => {
    const { id, device } = somebody();
    await amend(id, ['till', 'payout'], true);
    expect([await at('till', device), kept(id)]).toEqual([OUT, 0]);
    await amend(id, ['till', 'payout']);
    expect(await at('till', device)).toEqual(OUT);
  });

  it('ends also where it is said in the book and not over the server', async () => {
    const { id, device } = somebody();
    const book = openBook(bookFile);
    for (const hasLeft of [true, false])
      accepted(
        giveTo(book, 'worker.amend', {
          input: { workerId: id, stations: ['till', 'payout'], hasLeft },
          worker: 'a test',
        }),
      );
    book.close();
    expect(await at('till', device)).toEqual(OUT);
  });
});
