import { copyFileSync, existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { book as served } from '#app/server/book.ts';
import { leadingElsewhere } from '#app/server/lead.ts';
import { listen, plainListener } from '#app/server/lines/listeners.mjs';
import { openServerBook } from '#app/server/open-book.ts';
import { serverState, troubleNow } from '#app/server/state.ts';
import { keepCopy } from '#db/book/keep-copy.ts';
import { idOfBook, logHead, newestLine } from '#db/book/log.ts';
import { type Book, openBook } from '#db/book/open.ts';
import { restoreBook } from '#db/book/restore.ts';
import { deposedBy, leftOutText } from '#db/follow/deposed.ts';
import { epochOf } from '#db/follow/epoch.ts';
import { takeLines } from '#db/follow/follow.ts';
import { noteFollowed } from '#db/follow/followed.ts';
import { leadOf, readLead, sealLead } from '#db/follow/lead.ts';
import { linesBehind } from '#db/follow/lines.ts';
import { takeOver } from '#db/follow/take-over.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { withNoSignIns } from '#tests/db/support/passphrases.ts';
import { after, bundle, start as startChild } from '#tests/faults/support/child.ts';
import { rowsOfFile } from '#tests/support/book-file.ts';
import { giveTo, openHall } from '#tests/support/hall.ts';

import { cli } from '#tests/support/process.ts';
import { tempFile, tempFolder } from '#tests/support/temp.ts';

// The marker of server code, which only the framework's own bundler can judge.
vi.mock('server-only', () => ({}));

let file: string;
let own: string;
let server: Server;
let url: string;
let sent = 0;

/** The first laptop serves over HTTP in this process, as app/server/serve.mjs does; the second has a copy of its lines. */
beforeEach(async () => {
  file = join(tempFolder(), 'lantern.book');
  own = tempFile('second.book');
  openHall({ file }).book.close();
  vi.stubEnv('PELTRY_BOOK', file);
  vi.stubEnv('PELTRY_BACKUP_MINUTES', '0');
  vi.spyOn(console, 'error').mockReturnValue();
  start();
  const handle = (_: unknown, response: { end(text: string): void }) => response.end('the framework');
  server = await listen(plainListener({ handle, book: served }), { port: 0, hall: false });
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
});
afterEach(() => {
  server.closeAllConnections();
  server.close();
  stop();
  vi.unstubAllEnvs();
  vi.restoreAllMocks();
});

function start(): Book {
  const opened = openServerBook();
  if (!opened) throw new Error('The book of this test was not opened.');
  return opened;
}
function stop(): void {
  const here = serverState();
  here.book?.close();
  here.claim?.release();
  Object.assign(here, { book: undefined, claim: undefined, watch: undefined, trouble: null, late: [] });
}

/** An entry over HTTP, as an outbox sends it. */
async function enrol(over: Record<string, string> = {}) {
  sent += 1;
  const headers = { 'content-type': 'application/json', 'x-station': 'office', origin: url, ...over };
  const body = JSON.stringify({ name: `Dee Elm ${sent}` });
  return fetch(`${url}/api/commands/person.enrol`, {
    method: 'POST',
    headers: { 'idempotency-key': `split-brain-${sent}`, ...headers },
    body,
  });
}

/** The second laptop with all lines of the first, open. */
function followed(): Book {
  const second = existsSync(own) ? openBook(own) : openBook(own, { create: true });
  expect(takeLines(second, linesBehind(withNoSignIns(serverState().book as Book), logHead(second).seq))).toMatchObject({
    ok: true,
  });
  noteFollowed(own, url);
  return second;
}

const cookieOf = (book: Book) => `peltry-lead=${sealLead(book, leadOf(book) ?? expect.fail('it does not lead'))}`;

describe('two laptops that both take entries', () => {
  it('are ended by the take-over: the first refuses from then on, also after a restart, and merges nothing', async () => {
    const second = followed();
    // What the second never got.
    for (let n = 0; n < 3; n += 1) expect((await enrol()).status).toBe(200);
    const head = newestLine(serverState().book as Book);
    const done = await takeOver(second, undefined, new Date());
    expect(done).toMatchObject({ ok: true, value: { epoch: 2, told: 'deposed', first: url } });
    expect(troubleNow()).toMatchObject({
      kind: 'deposed',
      happened: expect.stringContaining('lacks 3 entries of this one'),
    });
    const answer = await enrol();
    expect(answer.status).toBe(503);
    expect(answer.headers.get('x-peltry-deposed')).toBe('yes');
    expect((await answer.json()).title).toMatch(/leads this book now: nothing is written here/);
    stop();
    const again = start();
    expect(troubleNow()).toMatchObject({ kind: 'deposed' });
    expect((await enrol()).status).toBe(503);
    expect(newestLine(again)).toBe(head);

    const lead = leadingElsewhere() ?? expect.fail('nobody leads');
    const rows = leftOutText(again, lead).trim().split('\r\n');
    expect(rows).toHaveLength(1 + 3);
    expect(rows[1]).toContain('person.enrol');
    expect(giveTo(second, 'person.enrol', { input: { name: 'At the second' } })).toMatchObject({ ok: true });
    expect(takeLines(again, linesBehind(withNoSignIns(second), head))).toMatchObject({ ok: false, code: 'conflict' });
    second.close();
    for (const one of [file, own]) expect(verifyBook(one)).toMatchObject({ ok: true, problems: [] });
    const out = join(tempFolder(), 'left.csv');
    stop();
    expect(await cli('left-out', out, '--book', file)).toMatchObject({
      code: 0,
      out: expect.stringContaining('3 entries'),
    });
    expect(await cli('import', tempFolder(), '--book', file)).toMatchObject({ code: 1 });
  });

  it('are ended by a browser that has seen the second: the very request that carries it is refused', async () => {
    const second = followed();
    rmSync(`${own}.followed`);
    expect(await takeOver(second, undefined, new Date())).toMatchObject({ ok: true });
    expect((await enrol()).status).toBe(200);
    expect((await enrol({ cookie: cookieOf(second) })).status).toBe(503);
    expect((await enrol()).status).toBe(503);
    second.close();
  });

  it('are found by a backup of the second on a stick, when the first starts', async () => {
    const second = followed();
    rmSync(`${own}.followed`);
    expect(await takeOver(second, undefined, new Date())).toMatchObject({ ok: true });
    second.close();
    const folder = join(dirname(file), 'backups');
    mkdirSync(folder);
    const served = join(tempFolder(), 'lantern.book');
    copyFileSync(own, served);
    expect(await keepCopy(served, folder, new Date('2026-02-28T10:00:00Z'))).toMatchObject({ ok: true });
    stop();
    start();
    expect(troubleNow()).toMatchObject({ kind: 'deposed' });
    rmSync(folder, { recursive: true });
    stop();
    start();
    expect(troubleNow()).toMatchObject({ kind: 'deposed' });
  });
});

describe('a server is not stopped', () => {
  it('by anybody who makes up an epoch, or changes what was sealed', async () => {
    const second = followed();
    rmSync(`${own}.followed`);
    expect(await takeOver(second, undefined, new Date())).toMatchObject({ ok: true });
    const id = idOfBook(second) ?? '';
    // All that the hall can see: the book's id and heads; and a log of another book.
    const stranger = openHall().book;
    giveTo(stranger, 'book.takeover', { input: { kind: 'takeover', laptop: 'x', above: 99 } });
    const lead = leadOf(second) ?? expect.fail('it does not lead');
    const forged = sealLead(stranger, { ...lead, epoch: 99 });
    const [text = '', seal = ''] = sealLead(second, lead).split('.');
    const changed = Buffer.from(JSON.stringify({ ...lead, epoch: 99 })).toString('base64url');
    for (const cookie of [forged, `${changed}.${seal}`, `${text}.`, text, '.', 'x', '99']) {
      expect((await enrol({ cookie: `peltry-lead=${cookie}` })).status, cookie).toBe(200);
    }
    // A number alone holds up the entry that bears it, and nothing else.
    expect((await enrol({ 'x-book': `${id}:99` })).status).toBe(503);
    expect((await enrol()).status).toBe(200);
    expect(troubleNow()).toBeNull();
    expect(readLead(second, `${text}.${seal}`)).toEqual(lead);
    second.close();
  });

  it('by a backup that somebody restores to try it, before anything is entered in that', async () => {
    const copy = join(tempFolder(), 'copy.book');
    expect(await cli('backup', copy, '--book', file)).toMatchObject({ code: 0 });
    const drill = tempFile('drill.book');
    expect(await restoreBook(copy, drill, new Date())).toMatchObject({ ok: true, equal: true, epoch: 2 });
    const restored = openBook(drill);
    expect([epochOf(restored), leadOf(restored)]).toEqual([2, null]);
    giveTo(restored, 'person.enrol', { input: { name: 'For good' } });
    expect((await enrol({ cookie: cookieOf(restored) })).status).toBe(503);
    restored.close();
  });
});

describe('the second laptop that took over', () => {
  it('takes what was typed before, once, and says so; and is not stopped by its own word', async () => {
    expect((await enrol()).status).toBe(200);
    const second = followed();
    expect(await takeOver(second, undefined, new Date())).toMatchObject({ ok: true });
    second.close();
    stop();
    vi.stubEnv('PELTRY_BOOK', own);
    const leads = start();
    const before = { 'x-book': `${idOfBook(leads)}:1` };
    const line = newestLine(leads);
    // Answered by the first, and not heard by the browser: it is in the log already.
    sent -= 1;
    const again = await enrol(before);
    expect(await again.json()).toMatchObject({ ok: true, repeated: true });
    const waited = await enrol(before);
    expect(await waited.json()).toMatchObject({ ok: true, line: line + 1 });
    expect(serverState().late).toMatchObject([{ line: line + 1, station: 'office' }]);
    const carried = /^peltry-lead=([^;]+)/.exec(waited.headers.get('set-cookie') ?? '')?.[0] ?? '';
    expect(carried).toBe(cookieOf(leads));
    const next = await enrol({ cookie: carried });
    expect([next.status, next.headers.get('set-cookie')?.includes('peltry-lead=') ?? false]).toEqual([200, false]);
    expect(next.headers.get('x-peltry-epoch')).toBe('2');
    const head = logHead(leads);
    expect(next.headers.get('x-peltry-head')).toBe(`${head.seq}:${head.hash.slice(0, 20)}`);
  });

  it('gives no take-over over the network', async () => {
    const answer = await fetch(`${url}/api/commands/book.takeover`, {
      method: 'POST',
      headers: {
        'content-type': 'application/json',
        'x-station': 'office',
        origin: url,
        'idempotency-key': 'take-over-1',
      },
      body: JSON.stringify({ kind: 'takeover', laptop: 'a phone' }),
    });
    expect(answer.status).toBe(403);
  });

  it('leads again on the first laptop only by another take-over, above the epoch that was heard of', async () => {
    const second = followed();
    expect(await takeOver(second, undefined, new Date())).toMatchObject({ ok: true });
    stop();
    expect(await cli('take-over', '--book', file)).toMatchObject({
      code: 0,
      out: expect.stringContaining('epoch 3: the book has changed its laptop twice'),
    });
    const first = start();
    expect([troubleNow(), deposedBy(first)]).toEqual([null, null]);
    expect((await enrol()).status).toBe(200);
    // And now the second one hears of that.
    expect(readLead(second, cookieOf(first).slice('peltry-lead='.length))).toMatchObject({ epoch: 3 });
    second.close();
  });

  it('is whole whenever it is killed while it takes over, and can take over again', async () => {
    followed().close();
    rmSync(`${own}.followed`);
    const epochs = new Set<number>();
    const script = await bundle('tests/faults/support/taking-over.ts');
    for (const wait of [0, 20, 40, 60, 80, 120, 200, 2000]) {
      const child = startChild(script);
      await child.ready;
      child.begin({ file: own });
      await Promise.race([child.lines, after(wait)]);
      child.kill();
      await child.lines;
      const book = openBook(own);
      epochs.add(epochOf(book));
      book.close();
      expect(verifyBook(own)).toMatchObject({ ok: true, problems: [] });
    }
    expect(await cli('take-over', '--book', own)).toMatchObject({ code: 0 });
    expect(epochs.size).toBeGreaterThan(1);
  });

  it('takes no entry where it is only started: both would, in one epoch', async () => {
    const second = followed();
    stop();
    vi.stubEnv('PELTRY_BOOK', own);
    second.close();
    const copy = start();
    expect(troubleNow()).toMatchObject({ kind: 'follows', toDo: expect.stringContaining('take-over') });
    expect((await enrol()).status).toBe(503);
    stop();
    expect(await cli('take-over', '--book', own)).toMatchObject({ code: 0 });
    start();
    expect(troubleNow()).toBeNull();
    expect((await enrol()).status).toBe(200);
    expect(copy.file).toBe(own);
  });

  it('leaves half a mark of a killed first laptop aside', () => {
    writeFileSync(`${file}.deposed.new`, '{"book":');
    stop();
    start();
    expect(troubleNow()).toBeNull();
    writeFileSync(`${file}.deposed`, '{"book":');
    stop();
    start();
    expect(troubleNow()).toMatchObject({ happened: expect.stringContaining('cannot be read') });
  });

  it('says what is wrong with a copy, and leads nothing then', async () => {
    followed().close();
    writeFileSync(`${own}.bad`, 'no book');
    expect(await cli('take-over', '--book', `${own}.bad`)).toMatchObject({ code: 1 });
    expect(await cli('take-over', '--book', `${own}.none`)).toMatchObject({ code: 1 });
    expect(await cli('take-over', '--book', file)).toMatchObject({
      code: 1,
      err: expect.stringContaining('stop that first'),
    });
    expect(rowsOfFile(own).takeover).toEqual([]);
  });
});
