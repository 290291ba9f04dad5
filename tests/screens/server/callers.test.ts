import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { STATIONS, type Station } from '#db/book/command.ts';
import { logHead } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { allCommands } from '#db/commands.ts';
import { beginMemberSession, LONGEST_MS } from '#db/sign-in/sessions.ts';
import { openStore } from '#db/sign-in/store.ts';
import { PAGES, ROUTES } from '#tests/screens/support/addresses.ts';
import { HALL_HOST } from '#tests/screens/support/browser.ts';
import { type Raw, raw } from '#tests/screens/support/http.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { workerIn } from '#tests/screens/support/worker.ts';
import { accepted, giveTo } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

/**
 * Every page, route and command of the application against every kind of caller. The lists are made from the registry
 * of commands and from the files of the pages and routes: a new one is in the table the moment it is there, and is shut
 * unless it is named here as open to the hall.
 */
const OPEN_TO_THE_HALL: readonly string[] = [
  '/board',
  '/board/seller',
  '/prices',
  '/prices/x',
  '/prices/mine',
  '/prices/own',
  '/prices/report',
  '/prices/report/pdf',
  '/prices/data/x',
  '/help',
  '/help/x',
  '/help/pictures/x',
  '/sign-in',
  '/api/sign-in/here',
  '/trouble',
  '/api/live',
  '/api/live/line',
  '/api/live-worker',
  '/api/openapi.json',
  '/api/authority',
  '/join',
  '/api/join',
  '/api/views/board',
];

/** Takes a name or a code from somebody who is not signed in yet, or a member's goodbye. */
const DOORSTEPS: readonly string[] = ['/api/sign-in', '/api/follow/pair', '/prices/own/enter', '/prices/own/leave'];

/** Pages of one station that another may see too: the office answers the accountant. */
const ALSO_FOR: Readonly<Record<string, readonly Station[]>> = { '/payout/year': ['office'] };

/** Given on the command line only: over HTTP nobody gives it. */
const AT_THE_MACHINE: readonly string[] = ['book.takeover'];

const isOpen = (path: string) => OPEN_TO_THE_HALL.includes(path);
const OPEN = [...PAGES, ...ROUTES.filter(({ method }) => method === 'GET').map(({ path }) => path)].filter(isOpen);
const SHUT_PAGES = PAGES.filter((path) => !isOpen(path));
const ACTS = ROUTES.filter(({ path, method }) => method === 'POST' && !path.startsWith('/api/commands/'));
const READS = ROUTES.filter(({ path, method }) => method === 'GET' && !isOpen(path)).map(({ path }) => path);
const COMMANDS = allCommands().map(({ name, stations }) => [name, stations] as const);

const bookFile = tempFile();
const cookies = new Map<string, string>();
let server: Server;
let hall = '';

beforeAll(async () => {
  fillSellingBook(bookFile, { lots: 3 }).close();
  const signIn = (name: string, over: object = {}) =>
    cookies.set(name, `peltry-plain=${workerIn(bookFile, name, over).token}`);
  signIn('everywhere');
  for (const station of STATIONS) signIn(station, { stations: [station] });
  signIn('expired', { now: Date.now() - LONGEST_MS - 1000 });
  cookies.set('made up', 'peltry-plain=made-up');
  const store = openStore(bookFile);
  cookies.set('member', `peltry-own=${beginMemberSession(store, 1, Date.now())}`);
  cookies.set('under the secure name', `__Host-${cookies.get('everywhere')?.replace('-plain', '')}`);
  store.close();
  server = await startServer({ bookFile });
  hall = `${HALL_HOST}:${new URL(server.url).port}`;
});

afterAll(() => server?.stop());

/** The kinds of caller who are nobody of the staff. */
const STRANGERS = ['nobody', 'expired', 'made up', 'member', 'under the secure name'];
/** Names under which nobody allowed this machine, as a hostile name server would lead a browser here. */
const UNKNOWN_HOSTS = [
  'elsewhere.test',
  'hall.test.elsewhere.test',
  '127.0.0.1.elsewhere.test',
  'hall.test@elsewhere.test',
];
const WRONG_ORIGINS = ['http://elsewhere.test', 'null', 'https://127.0.0.1.elsewhere.test', 'http://127.0.0.1'];

const as = (caller: string): Record<string, string> => {
  const cookie = cookies.get(caller);
  return cookie === undefined ? {} : { cookie };
};
const get = (path: string, headers: Record<string, string>) => raw(`${server.url}${path}`, { headers });

let sent = 0;
const own = (station: string): Record<string, string> => {
  sent += 1;
  const key = `callers-test-${sent}`;
  return { 'content-type': 'application/json', 'idempotency-key': key, 'x-station': station, origin: server.url };
};
const post = (path: string, headers: Record<string, string>) =>
  raw(`${server.url}${path}`, { method: 'POST', headers, body: '{}' });
const give = async (command: string, station: Station, over: Record<string, string>) => {
  const { status, headers } = await post(`/api/commands/${command}`, { ...own(station), ...over });
  expect(headers['content-type']).toMatch(/json/);
  expect(headers['cache-control']).toBe('no-store');
  return status;
};
const without = (name: string, headers: Record<string, string>) =>
  Object.fromEntries(Object.entries(headers).filter(([one]) => one !== name));

function withBook<T>(work: (book: ReturnType<typeof openBook>) => T): T {
  const book = openBook(bookFile);
  try {
    return work(book);
  } finally {
    book.close();
  }
}
const lines = () => withBook((book) => logHead(book).seq);

function officeSays(plainStaff: boolean): void {
  const input = { hosts: [HALL_HOST], plainStaff, reason: 'a test of the line' };
  withBook((book) =>
    accepted(giveTo(book, 'network.set', { input, worker: 'a test', key: `line-${sent}-${plainStaff}` })),
  );
}

/** What every answer carries: the names are of the OWASP Secure Headers Project, the values our own choice. */
function expectHeaders({ headers }: Raw): void {
  expect(headers['x-content-type-options']).toBe('nosniff');
  expect(headers['content-security-policy']).toContain("frame-ancestors 'none'");
  expect(headers['content-security-policy']).not.toMatch(/unsafe|\*|https?:/);
  expect(headers['referrer-policy']).toBe('same-origin');
  expect(headers['x-powered-by']).toBeUndefined();
}

describe('every page', () => {
  it('is found', () => expect(SHUT_PAGES.length).toBeGreaterThan(10));

  it.each(SHUT_PAGES)('%s sends a stranger to sign in, and knows no other name of this machine', async (path) => {
    for (const caller of STRANGERS) {
      const { status, headers } = await get(path, as(caller));
      expect([status, headers.location], caller).toEqual([307, expect.stringMatching(/^\/sign-in/)]);
    }
    for (const host of UNKNOWN_HOSTS) expect((await get(path, { ...as('everywhere'), host })).status, host).toBe(421);
  });

  it.each(SHUT_PAGES)(
    '%s is open to a worker of every station, says that the line is open, is kept nowhere',
    async (path) => {
      const answer = await get(path, { ...as('everywhere'), host: hall });
      expect([200, 404]).toContain(answer.status);
      if (answer.status === 200) expect(answer.text).toContain('Open line: not encrypted');
      expect(answer.headers['cache-control']).toContain('no-store');
      expectHeaders(answer);
      expect(answer.headers['content-security-policy']).toMatch(
        /script-src 'self' 'nonce-[\w+/]{22}==' 'strict-dynamic';/,
      );
    },
  );

  it.each(SHUT_PAGES.filter((path) => /^\/(intake|block|till|payout)/.test(path)))(
    '%s is for its station',
    async (path) => {
      const ours = [path.split('/')[1], ...(ALSO_FOR[path] ?? [])];
      for (const station of STATIONS)
        expect((await get(path, as(station))).status === 307, station).toBe(!ours.includes(station));
    },
  );
});

describe('every route', () => {
  it.each(READS)('%s is shut to a stranger and under another name, and is kept nowhere', async (path) => {
    // A member's own sheet is for a member, who is no stranger there, and for none of the staff.
    for (const caller of STRANGERS.filter((one) => one !== 'member' || !path.startsWith('/prices/own/'))) {
      const answer = await get(path, as(caller));
      expect([answer.status, answer.headers['cache-control']], caller).toEqual([401, 'no-store']);
      expectHeaders(answer);
    }
    for (const host of UNKNOWN_HOSTS) expect((await get(path, { ...as('everywhere'), host })).status, host).toBe(421);
    const { headers } = await get(path, as('everywhere'));
    expect(headers['cache-control']).toContain('no-store');
  });

  it.each(OPEN)('%s is open to the hall, sets no cookie, and is not there under another name', async (path) => {
    const answer = await get(path, { host: hall });
    expect([200, 307, 404]).toContain(answer.status);
    expect(answer.headers['set-cookie']).toBeUndefined();
    expectHeaders(answer);
    for (const host of UNKNOWN_HOSTS) expect((await get(path, { host })).status, host).toBe(421);
  });

  it.each(ACTS.map(({ path }) => path))('%s is done for our own pages only', async (path) => {
    const before = lines();
    const step = DOORSTEPS.includes(path);
    if (!step)
      for (const caller of STRANGERS)
        expect((await post(path, { ...own('office'), ...as(caller) })).status, caller).toBe(401);
    const mine = { ...own('office'), ...as('everywhere') };
    const strange = [
      ...WRONG_ORIGINS.map((origin) => ({ ...mine, origin })),
      without('origin', mine),
      { ...mine, 'sec-fetch-site': 'cross-site' },
      ...(path.startsWith('/prices/') ? [] : [without('x-station', mine)]),
    ];
    for (const headers of strange) {
      const answer = await post(path, headers);
      // A form leads back to its page, without having done anything.
      expect([403, 303], JSON.stringify(headers)).toContain(answer.status);
      expect(answer.headers['set-cookie']).toBeUndefined();
    }
    for (const host of UNKNOWN_HOSTS)
      expect((await post(path, { ...mine, host, origin: `http://${host}` })).status).toBe(421);
    expect((await raw(`${server.url}${path}`, { headers: as('everywhere') })).status).toBe(405);
    expect(lines()).toBe(before);
  });
});

describe('every address, by a method that it does not take', () => {
  const all = [...new Set([...PAGES, ...ROUTES.map(({ path }) => path)])];
  it.each(all)('%s does nothing for PUT, PATCH and DELETE, whoever asks', async (path) => {
    const before = lines();
    for (const method of ['PUT', 'PATCH', 'DELETE']) {
      for (const caller of ['nobody', 'member', 'block', 'everywhere']) {
        const headers = { ...own('office'), ...as(caller) };
        const { status, headers: said } = await raw(`${server.url}${path}`, { method, headers });
        expect(status, `${method} ${caller}`).toBe(405);
        expect(said['set-cookie'], `${method} ${caller}`).toBeUndefined();
      }
    }
    expect(lines()).toBe(before);
  });
});

describe('every command', () => {
  it.each(COMMANDS)('%s is taken from a worker of its stations, and from nobody else', async (name, stations) => {
    const before = lines();
    const [first] = stations;
    if (!first) throw new Error(`${name} names no station.`);
    const strangers = await Promise.all(STRANGERS.map((caller) => give(name, first, as(caller))));
    expect(strangers).toEqual(STRANGERS.map(() => 401));
    const theirs = STATIONS.map(async (station) => {
      const status = await give(name, station, as(station));
      // An empty input is refused, too, but as an input and not at the door.
      if (AT_THE_MACHINE.includes(name)) expect(status, station).toBe(403);
      else if (stations.includes(station)) expect([200, 422, 413, 409], station).toContain(status);
      else expect(status, station).toBe(403);
      if (station !== first) expect(await give(name, first, as(station)), `${station} as ${first}`).toBe(403);
    });
    await Promise.all(theirs);
    const mine = as('everywhere');
    for (const origin of WRONG_ORIGINS) expect(await give(name, first, { ...mine, origin }), origin).toBe(403);
    expect(await give(name, first, { ...mine, 'sec-fetch-site': 'cross-site' })).toBe(403);
    for (const missing of ['origin', 'x-station', 'idempotency-key', 'content-type']) {
      const headers = without(missing, { ...own(first), ...mine });
      expect([400, 403, 422], missing).toContain((await post(`/api/commands/${name}`, headers)).status);
    }
    for (const host of UNKNOWN_HOSTS) {
      expect(await give(name, first, { ...mine, host, origin: `http://${host}` }), host).toBe(421);
    }
    expect(lines()).toBe(before);
  });
});

describe('money to a seller number', () => {
  const pay = async (caller: string, station: Station) => {
    const input = { saleId: 1, direction: 'out', sellerNo: 1, method: 'cash', amount: '5.00' };
    const headers = { ...own(station), ...as(caller) };
    const body = JSON.stringify(input);
    const { status, text } = await raw(`${server.url}/api/commands/payment.record`, { method: 'POST', headers, body });
    const { code, detail } = JSON.parse(text) as { readonly code: string; readonly detail: string };
    return { status, code, detail };
  };

  it.each(['till', 'everywhere'])('is refused at the till, in words for the cashier: %s', async (caller) => {
    const before = lines();
    const detail = 'Sellers are paid at Payout: send seller number 1 to the treasurer.';
    expect(await pay(caller, 'till')).toEqual({ status: 403, code: 'not_allowed', detail });
    expect(lines()).toBe(before);
  });

  it('is not refused at payout because of the station, where a cashier does not work', async () => {
    for (const caller of ['payout', 'everywhere'])
      expect(await pay(caller, 'payout'), caller).toMatchObject({ code: 'wrong_stage' });
    expect((await pay('till', 'payout')).status).toBe(403);
  });
});

describe('the open line, which the office has not allowed', () => {
  beforeAll(() => officeSays(false));
  afterAll(() => officeSays(true));
  const mine = () => ({ ...as('everywhere'), host: hall, origin: `http://${hall}` });

  it.each(SHUT_PAGES)('%s leads to the encrypted one', async (path) => {
    const { status, headers } = await get(path, mine());
    expect([status, headers.location]).toEqual([307, '/sign-in?why=line']);
  });

  it('shows no form for a passphrase or a code, and takes neither', async () => {
    for (const path of ['/sign-in', '/prices/own']) expect((await get(path, mine())).text, path).not.toContain('<form');
    const { status, text } = await post('/api/sign-in', { ...own('sign-in'), ...mine() });
    expect([status, text]).toEqual([403, expect.stringContaining('open_line')]);
  });

  it('carries no read, no act and no command of the staff', async () => {
    const reads = READS.filter((path) => !path.startsWith('/prices/own/') && path !== '/api/follow');
    for (const path of reads) expect((await get(path, mine())).status, path).toBe(403);
    expect((await get('/api/follow', mine())).status).toBe(401);
    const acts = ACTS.filter(({ path }) => !path.startsWith('/prices/own/'));
    for (const { path } of acts) expect((await post(path, { ...own('office'), ...mine() })).status, path).toBe(403);
    for (const [name, [first]] of COMMANDS) if (first) expect(await give(name, first, mine()), name).toBe(403);
  });

  it('carries the Board and the prices, and everything at the machine itself', async () => {
    for (const path of ['/board', '/prices']) expect((await get(path, mine())).status, path).toBe(200);
    const answer = await get('/office', as('everywhere'));
    expect(answer.status).toBe(200);
    expect(answer.text).not.toContain('Open line');
  });

  it('cannot be passed off as another by the one who sends', async () => {
    const forged = { 'x-peltry-line': 'secure machine', 'x-forwarded-proto': 'https', forwarded: 'proto=https' };
    expect((await get('/office', { ...mine(), ...forged, 'x-forwarded-host': '127.0.0.1' })).status).toBe(307);
  });
});
