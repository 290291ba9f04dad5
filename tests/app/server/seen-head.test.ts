import { copyFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { answerEntry } from '#app/server/answer-entry.ts';
import { openServerBook } from '#app/server/open-book.ts';
import { confirmLoss, lookedCookie, lossFor } from '#app/server/seen-head.ts';
import { serverState } from '#app/server/state.ts';
import { newestLine } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { troubleOf } from '#db/book/trouble.ts';
import { openHall } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

// The marker of server code, which only the framework's own bundler can judge.
vi.mock('server-only', () => ({}));

/** What the gate says of the way an entry came. */
const LINE = {
  host: 'localhost',
  origin: 'http://localhost',
  'content-type': 'application/json',
  'x-peltry-line': 'open machine',
};

let file: string;
let given = 0;

function serve(at: string): void {
  close();
  vi.stubEnv('PELTRY_BOOK', at);
  expect(openServerBook()).toBeDefined();
}

function close(): void {
  const here = serverState();
  here.book?.close();
  here.claim?.release();
  const none = { book: undefined, claim: undefined, watch: undefined, trouble: null, lossConfirmed: undefined };
  Object.assign(here, none);
}

/** One entry as a browser sends it; gives the answer's status, its title, and the cookie that the browser then has. */
async function enrol(cookie: string) {
  given += 1;
  const headers = { 'idempotency-key': `seen-head-${given}`, 'x-station': 'office', cookie, ...LINE };
  const request = new Request('http://localhost/', {
    method: 'POST',
    headers,
    body: JSON.stringify({ name: 'Dee Elm' }),
  });
  const answer = await answerEntry('person.enrol', request);
  const [kept = cookie] = answer.headers.getSetCookie().map((one) => one.split(';')[0] ?? '');
  return { status: answer.status, kept, said: (await answer.json()) as { title?: string } };
}

beforeEach(() => {
  file = tempFile('lantern.book');
  openHall({ file }).book.close();
  vi.stubEnv('PELTRY_BACKUP_MINUTES', '0');
  vi.spyOn(console, 'error').mockReturnValue();
});
afterEach(() => {
  close();
  vi.unstubAllEnvs();
  vi.restoreAllMocks();
});

const LACKS = 'The book at this address lacks entries that were saved. Stop and tell the office.';

describe('a browser that only looked', () => {
  const signedIn = 'peltry-plain=somebody';
  const shown = (cookies: string) => lookedCookie(cookies)?.split(';')[0] ?? '';

  it('remembers the head that it was shown, and warns where the book ends before it, or has another there', async () => {
    const older = tempFile('older.book');
    copyFileSync(file, older);
    serve(file);
    await enrol('');
    const looked = shown(signedIn);
    expect(looked).toMatch(/^peltry-look-[0-9a-f]{20}=\d+:[0-9a-f]{20}$/);
    expect(shown(`${signedIn}; ${looked}`)).toBe('');
    const { kept } = await enrol('');
    // Who entered something looks as well; and the late answer to a look puts back nothing.
    const both = `${kept}; ${looked}`;
    expect(shown(both)).not.toBe(looked);
    serve(older);
    const book = serverState().book ?? expect.fail();
    const loss = (cookie: string) => lossFor(book, new Headers({ cookie }));
    expect(loss(`${signedIn}; ${looked}`)).toMatchObject({
      kind: 'loss',
      happened: expect.stringContaining('ends at'),
    });
    expect([shown(`${signedIn}; ${looked}`), shown(both)]).toEqual(['', '']);
    expect(await enrol(`${signedIn}; ${looked}`)).toMatchObject({ status: 503, said: { title: LACKS } });
    confirmLoss(book);
    expect(shown(`${signedIn}; ${looked}`)).toMatch(/^peltry-look-/);
  });

  it('is somebody of the staff; and is shown nothing to remember while something is the matter', () => {
    serve(file);
    for (const cookies of ['', 'other=1', 'x-peltry-plain=1']) expect(lookedCookie(cookies)).toBeUndefined();
    serverState().trouble = troubleOf('disk');
    expect(lookedCookie(signedIn)).toBeUndefined();
  });
});

describe('a browser remembers the newest entry that it was told is saved', () => {
  it('and a book that has it takes the next one', async () => {
    serve(file);
    const first = await enrol('');
    expect(first.kept).toMatch(/^peltry-head-[0-9a-f]{20}=\d+:[0-9a-f]{20}$/);
    const second = await enrol(first.kept);
    expect(second).toMatchObject({ status: 200 });
    expect(second.kept).not.toBe(first.kept);
  });

  it('and a book that ends before it, or has another in its place, takes nothing until the office confirms it', async () => {
    const older = tempFile('older.book');
    copyFileSync(file, older);
    serve(file);
    const { kept } = await enrol('');
    close();
    serve(older);
    const { book } = serverState();
    const lines = newestLine(book ?? expect.fail());
    expect(await enrol(kept)).toMatchObject({ status: 503, said: { title: LACKS }, kept });
    // Another browser has its entry saved there: now that line is another one.
    expect(await enrol('')).toMatchObject({ status: 200 });
    expect(newestLine(book ?? expect.fail())).toBe(lines + 1);
    expect(await enrol(kept)).toMatchObject({ status: 503, said: { title: LACKS } });
    confirmLoss(book ?? expect.fail());
    const after = await enrol(kept);
    expect(after).toMatchObject({ status: 200 });
    expect(after.kept).not.toBe(kept);
  });

  it('and what it remembers of one book says nothing of another', async () => {
    serve(file);
    const { kept } = await enrol('');
    close();
    const other = tempFile('other.book');
    openHall({ file: other, key: 'another' } as Parameters<typeof openHall>[0]).book.close();
    const book = openBook(other);
    expect(
      lossFor(book, new Headers({ cookie: kept.replace(/head-[0-9a-f]{20}/, `head-${'0'.repeat(20)}`) })),
    ).toBeNull();
    book.close();
  });
});
