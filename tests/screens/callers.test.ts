import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { STATIONS, type Station } from '#db/command.ts';
import { allCommands } from '#db/commands/index.ts';
import { logHead } from '#db/log.ts';
import { openBook } from '#db/open.ts';
import { LONGEST_MS } from '#db/signing-in/sessions.ts';
import { tempFile } from '#tests/support/temp.ts';
import { files } from '#tests/tidy/tree.ts';
import { fillSellingBook } from './support/selling-book.ts';
import { type Server, startServer } from './support/server.ts';
import { workerIn } from './support/worker.ts';

/**
 * Every command and every route of the application against every kind of caller. The lists are made from the registry
 * of commands and from the route files: a new one is in the table the moment it is there, and is shut unless it is
 * named here as open to the hall.
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
  '/sign-in',
  '/trouble',
  '/api/live',
  '/api/live/line',
  '/api/live-worker',
  '/api/openapi.json',
  '/api/views/board',
];

const PAGES = addresses(/page\.tsx$/);
const ROUTES = addresses(/route\.ts$/).filter((path) => !path.startsWith('/api/commands/'));

const bookFile = tempFile();
const cookies = new Map<string, string>();
let server: Server;

beforeAll(async () => {
  fillSellingBook(bookFile, { lots: 3 }).close();
  const signIn = (name: string, over: object = {}) =>
    cookies.set(name, `peltry-plain=${workerIn(bookFile, name, over).token}`);
  signIn('everywhere');
  for (const station of STATIONS) signIn(station, { stations: [station] });
  signIn('expired', { now: Date.now() - LONGEST_MS - 1000 });
  cookies.set('made up', 'peltry-plain=made-up');
  server = await startServer({ bookFile });
});

afterAll(() => server?.stop());

/** The addresses of the files of this kind; a part in brackets is filled with x. */
function addresses(kind: RegExp): string[] {
  const found = files(/^app\/.*\b(page\.tsx|route\.ts)$/).filter((path) => kind.test(path));
  return found.map((path) => {
    const folder = path.replace(/^app\/?/, '').replace(/\/?[^/]+$/, '');
    return `/${folder.replace(/\(\w+\)\/?/g, '').replace(/\[\w+\]/g, 'x')}`;
  });
}

const headers = (caller?: string): Record<string, string> => {
  const cookie = caller === undefined ? undefined : cookies.get(caller);
  return cookie === undefined ? {} : { cookie };
};

const read = async (path: string, caller?: string) => {
  const answer = await fetch(`${server.url}${path}`, {
    headers: headers(caller),
    redirect: 'manual',
    signal: AbortSignal.timeout(15_000),
  });
  await answer.body?.cancel();
  return { status: answer.status, to: answer.headers.get('location') ?? '' };
};

let sent = 0;

async function give(command: string, station: Station, over: Record<string, string>): Promise<number> {
  sent += 1;
  const answer = await fetch(`${server.url}/api/commands/${command}`, {
    method: 'POST',
    headers: {
      'content-type': 'application/json',
      'idempotency-key': `callers-test-${sent}`,
      'x-station': station,
      ...over,
    },
    body: '{}',
  });
  expect(answer.headers.get('content-type')).toMatch(/json/);
  await answer.body?.cancel();
  return answer.status;
}

function lines(): number {
  const book = openBook(bookFile);
  const { seq } = logHead(book);
  book.close();
  return seq;
}

const STRANGERS = [undefined, 'expired', 'made up'];

describe('every page', () => {
  const shut = PAGES.filter((path) => !OPEN_TO_THE_HALL.includes(path));

  it('is found', () => expect(shut.length).toBeGreaterThan(10));

  it.each(shut)('%s sends a stranger to sign in', async (path) => {
    for (const caller of STRANGERS) {
      expect(await read(path, caller), caller).toMatchObject({ status: 307, to: expect.stringMatching(/^\/sign-in/) });
    }
  });

  it.each(shut)('%s is open to a worker of every station', async (path) => {
    const { status, to } = await read(path, 'everywhere');
    expect([200, 404], to).toContain(status);
  });

  it.each(shut.filter((path) => /^\/(intake|block|till|payout)/.test(path)))('%s is for its station', async (path) => {
    const own = path.split('/')[1];
    for (const station of STATIONS) {
      const { status } = await read(path, station);
      expect(status === 307, station).toBe(station !== own);
    }
  });
});

describe('every route', () => {
  it.each(ROUTES.filter((path) => !OPEN_TO_THE_HALL.includes(path)))('%s is shut to a stranger', async (path) => {
    for (const caller of STRANGERS) expect([401, 405], caller).toContain((await read(path, caller)).status);
  });

  it.each([...PAGES, ...ROUTES].filter((path) => OPEN_TO_THE_HALL.includes(path)))(
    '%s is open to the hall, and sets no cookie',
    async (path) => {
      const answer = await fetch(`${server.url}${path}`, { signal: AbortSignal.timeout(15_000) });
      await answer.body?.cancel();
      expect([200, 404]).toContain(answer.status);
      expect(answer.headers.get('set-cookie')).toBeNull();
    },
  );
});

describe('every command', () => {
  it.each(allCommands().map((command) => [command.name, command.stations] as const))(
    '%s is taken from a worker of its stations, and from nobody else',
    async (name, stations) => {
      const before = lines();
      const [own] = stations;
      if (!own) throw new Error(`${name} names no station.`);
      const strangers = STRANGERS.map((caller) => give(name, own, headers(caller)));
      expect(await Promise.all(strangers)).toEqual(STRANGERS.map(() => 401));
      const theirs = STATIONS.map(async (station) => {
        const status = await give(name, station, headers(station));
        // An empty input is refused, too, but as an input and not at the door.
        if (stations.includes(station)) expect([200, 422, 413, 409], station).toContain(status);
        else expect(status, station).toBe(403);
        if (station !== own) expect(await give(name, own, headers(station)), `${station} as ${own}`).toBe(403);
      });
      await Promise.all(theirs);
      for (const origin of ['http://elsewhere.test', 'null', 'https://127.0.0.1.elsewhere.test']) {
        expect(await give(name, own, { ...headers('everywhere'), origin }), origin).toBe(403);
      }
      const crossSite = { ...headers('everywhere'), 'sec-fetch-site': 'cross-site' };
      expect(await give(name, own, crossSite)).toBe(403);
      const noOrigin = { ...headers('everywhere'), 'sec-fetch-site': 'same-origin' };
      expect(await give(name, own, noOrigin)).toBe(403);
      expect(lines()).toBe(before);
    },
  );
});
