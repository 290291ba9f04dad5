import { once } from 'node:events';
import { existsSync, readFileSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { Agent, request } from 'node:https';
import { connect as connectRaw } from 'node:net';
import { join } from 'node:path';
import { connect, type TLSSocket } from 'node:tls';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { book } from '#app/server/book.ts';
import { hallOfProcess } from '#app/server/hall.ts';
import { linesOf } from '#app/server/lines/lines.mjs';
import { serverState } from '#app/server/state.ts';
import { certificateFile } from '#db/certificate/names.ts';
import { freePort, raw } from '#tests/screens/support/http.ts';
import { accepted, giveTo, openHall } from '#tests/support/hall.ts';
import { tempFolder } from '#tests/support/temp.ts';

// The marker of server code, which only the framework's own bundler can judge.
vi.mock('server-only', () => ({}));

/** The lines of a server over HTTP and TLS, as app/server/serve.mjs keeps them; the framework answers one sentence. */
const file = join(tempFolder(), 'lantern.book');
const ports = { open: 0, secure: 0 };
const said: string[] = [];
const handle = (_: IncomingMessage, response: ServerResponse) => response.end('the framework');
let lines: ReturnType<typeof linesOf>;

beforeAll(async () => {
  openHall({ file }).book.close();
  vi.stubEnv('PELTRY_BOOK', file);
  vi.stubEnv('PELTRY_BACKUP_MINUTES', '0');
  for (const name of ['PELTRY_PORT', 'PELTRY_HALL', 'PELTRY_SECURE_PORT']) vi.stubEnv(name, undefined);
  vi.spyOn(console, 'error').mockReturnValue();
  book.open(undefined);
  Object.assign(ports, { open: await freePort(), secure: await freePort() });
  lines = linesOf({
    behind: { handle, book, dev: false },
    ports,
    dev: false,
    say: (...all: string[]) => void said.push(...all),
  });
  await lines.begin(false);
});
afterAll(() => {
  for (const server of lines.servers()) {
    server.close();
    server.closeAllConnections();
  }
  vi.unstubAllEnvs();
});

const ca = () => readFileSync(certificateFile(file, 'authority'), 'utf8');
const secure = () => `https://127.0.0.1:${ports.secure}`;

/** The certificate of the line as a browser under this name would get it; rejects where it is not trusted. */
async function certificateAt(servername: string): Promise<string> {
  const socket: TLSSocket = connect({ port: ports.secure, host: '127.0.0.1', servername, ca: ca() });
  await once(socket, 'secureConnect');
  const { fingerprint256 } = socket.getPeerCertificate();
  socket.destroy();
  return fingerprint256;
}

it('opens to the hall while it runs, in one act: a certificate, a code at the terminal, and a line that is trusted', async () => {
  await expect(raw(`${secure()}/board`)).rejects.toThrow(/ECONNREFUSED/);
  expect(await hallOfProcess()?.open()).toBe('');
  expect(said.join('\n')).toMatch(/Everybody joins at http:\/\/\S+\/join\nStaff work at https:\/\//);
  expect(said.join('\n')).toMatch(/The six words: (\w+ ){5}\w+\n/);
  expect((await raw(`${secure()}/board`, { ca: ca() })).text).toBe('the framework');
  expect((await raw(`http://127.0.0.1:${ports.open}/board`)).text).toBe('the framework');
  expect(lines.servers().map((server) => server.address())).toMatchObject([{ address: '::' }, { address: '::' }]);
  expect(existsSync(`${file}.hall`)).toBe(true);
  expect([book.hallRemembered(), book.hallRemembered(false), book.hallRemembered(true)]).toEqual([true, false, true]);
  // A second press does nothing.
  const before = said.length;
  expect([await hallOfProcess()?.open(), said.length]).toEqual(['', before]);
});

it('takes a certificate that is made anew without a restart, and cuts nobody off', async () => {
  const agent = new Agent({ keepAlive: true, maxSockets: 1 });
  const ask = async () => {
    const sent = request(`${secure()}/board`, { agent, ca: ca() }).end();
    const [answer] = (await once(sent, 'response')) as [IncomingMessage];
    answer.resume();
    await once(answer, 'end');
    return { status: answer.statusCode, reused: sent.reusedSocket };
  };
  await ask();
  const old = await certificateAt('peltry.local');
  await hallOfProcess()?.look();
  expect(await certificateAt('peltry.local')).toBe(old);
  await expect(certificateAt('barn.lan')).rejects.toThrow(/altnames/);
  const { book: open } = serverState();
  if (!open) throw new Error('No book is open.');
  const input = { hosts: ['barn.lan'], plainStaff: false };
  accepted(giveTo(open, 'network.set', { input, worker: 'Ada', station: 'office', key: 'the barn' }));
  await hallOfProcess()?.look();
  const fresh = await certificateAt('barn.lan');
  expect(fresh).not.toBe(old);
  expect(await ask()).toEqual({ status: 200, reused: true });
  // Near its end it is made anew too.
  await hallOfProcess()?.look(new Date(Date.now() + 390 * 86_400_000));
  expect(await certificateAt('barn.lan')).not.toBe(fresh);
  agent.destroy();
});

it('leads http on the encrypted port to https, and answers what is no request in a sentence', async () => {
  const plain = `http://127.0.0.1:${ports.secure}`;
  const led = await raw(`${plain}/board?no=2`);
  expect([led.status, led.headers.location]).toEqual([307, `${secure()}/board?no=2`]);
  const elsewhere = await raw(`${plain}/board`, { headers: { host: 'elsewhere.test' } });
  expect([elsewhere.status, elsewhere.headers.location]).toEqual([400, undefined]);
  expect(elsewhere.text).toContain('begins with https');
  const posted = await raw(`${plain}/api/sign-in`, { method: 'POST' });
  expect([posted.status, posted.headers.location]).toEqual([400, undefined]);
  const noise = connectRaw(ports.secure, '127.0.0.1');
  noise.end('nothing of the kind\r\n\r\n');
  const [answer] = (await once(noise, 'data')) as [Buffer];
  expect(String(answer)).toMatch(/^HTTP\/1\.1 400 /);
  noise.destroy();
});

it('tells a browser under a wrong name the right address', async () => {
  const { status, text } = await raw(`http://127.0.0.1:${ports.open}/board`, { headers: { host: 'elsewhere.test' } });
  expect(status).toBe(421);
  expect(JSON.parse(text).detail).toMatch(new RegExp(`Use http://\\S+:${ports.open}/join instead`));
});

it('opens the encrypted line as soon as a certificate can be made, and says once why it could not', async () => {
  const { keys } = await book.keys(true);
  const answers = [{ keys: null, why: 'not yet', fresh: false }];
  const own = { ...book, keys: async () => answers[0] ?? { keys, why: '', fresh: true } };
  const [heard, at] = [[] as string[], { open: await freePort(), secure: await freePort() }];
  const say = (...all: string[]) => void heard.push(...all);
  const other = linesOf({ behind: { handle, book: own, dev: false }, ports: at, dev: false, say });
  await other.begin(true);
  await hallOfProcess()?.look();
  expect(heard.filter((words) => words === 'not yet')).toHaveLength(1);
  expect(other.servers()).toHaveLength(1);
  answers.pop();
  await hallOfProcess()?.look();
  expect((await raw(`https://127.0.0.1:${at.secure}/board`, { ca: ca() })).text).toBe('the framework');
  for (const server of other.servers()) {
    server.close();
    server.closeAllConnections();
  }
});
