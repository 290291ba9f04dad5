import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { STATIONS } from '#db/book/command.ts';
import { submitUntyped } from '#db/book/door.ts';
import { logHead } from '#db/book/log.ts';
import { type Book, openBook, openBookInMemory } from '#db/book/open.ts';
import { follow, takeLines } from '#db/follow/follow.ts';
import { laptopsOf, makePairing, mayFollow, pair, revokeLaptop } from '#db/follow/laptops.ts';
import { linesBehind } from '#db/follow/lines.ts';
import { CODE_MS } from '#db/sign-in/credentials.ts';
import { signIn } from '#db/sign-in/sign-in.ts';
import { openStore, type Store, storeInMemory } from '#db/sign-in/store.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { cheapMark, withNoSignIns } from '#tests/db/support/passphrases.ts';
import { actNo } from '#tests/faults/support/acts.ts';
import { bundle } from '#tests/faults/support/child.ts';
import { rowsOfFile } from '#tests/support/book-file.ts';
import { accepted, giveTo, openHall, rowsOf } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const ACTS = 60;

function paired(store: Store, now = Date.now()): string {
  const key = pair(store, { code: makePairing(store, now), name: 'the other' }, now);
  if (!key.ok) throw new Error(key.message);
  return key.value;
}

/** The other laptop, in a process of its own. */
async function firstLaptop(file: string) {
  const script = await bundle('tests/faults/support/first-laptop.ts');
  const env = { ...process.env, NODE_PATH: join(ROOT, 'node_modules') };
  const child = spawn(process.execPath, [script], { cwd: ROOT, env, stdio: ['pipe', 'pipe', 'inherit'] });
  await once(child.stdout, 'data');
  child.stdin.write(`${JSON.stringify({ file })}\n`);
  const [port] = await once(child.stdout, 'data');
  return { url: `http://127.0.0.1:${String(port).trim()}`, child };
}

/** One try of an outbox: what came back, or nothing. */
async function send(url: string, number: number): Promise<boolean> {
  try {
    return (await (await fetch(`${url}/?act=${number}`)).json()).ok === true;
  } catch {
    return false;
  }
}

describe('a second laptop', () => {
  it('follows, is equal to the first, takes over when that one dies, and the outboxes empty into it, nothing twice', async () => {
    const [file, own] = [tempFile('first.book'), tempFile('second.book')];
    const hall = openHall({ file });
    const firstStore = openStore(file);
    const words = 'three dry pelts hanging';
    const passphraseMark = cheapMark({ book: hall.book, store: firstStore }, words);
    const input = { name: 'Ada', passphraseMark, stations: [...STATIONS] };
    accepted(giveTo(hall.book, 'worker.add', { input, key: 'the first worker' }));
    hall.book.close();
    const key = paired(firstStore);
    firstStore.close();
    const { url, child } = await firstLaptop(file);
    const outbox: number[] = [];
    for (let number = 1; number <= ACTS; number += 1) if (!(await send(url, number))) outbox.push(number);
    expect(outbox.length).toBeGreaterThan(5);

    const second = openBook(own, { create: true });
    const store = openStore(own);
    const stop = new AbortController();
    const said: string[] = [];
    const following = { address: url, key, stop: stop.signal, say: (words: string) => void said.push(words) };
    expect(await follow({ book: second, store }, { ...following, once: true })).toMatchObject({ ok: true });
    expect(said).toEqual([expect.stringMatching(/^Caught up at line \d+ [0-9a-f]{64}\.$/)]);
    expect(rowsOf(second)).toEqual(rowsOfFile(file));
    // Her passphrase came beside the lines and not in them: it is in neither book, and she can sign in here.
    for (const one of [file, `${file}-wal`, own, `${own}-wal`])
      expect(readFileSync(one, 'latin1')).not.toContain('scrypt');
    const place = { book: second, store, now: Date.now(), device: 'a test', client: 'a test' };
    expect(await signIn(place, 'Ada', words)).toMatchObject({ ok: true });
    store.close();

    // The cable of the first laptop is pulled. Entries that nobody answered go to the second with their old keys.
    child.kill('SIGKILL');
    await once(child, 'exit');
    expect(await send(url, ACTS + 1)).toBe(false);
    outbox.push(ACTS + 1, ACTS + 2);
    const line = logHead(second).seq;
    for (const number of outbox) {
      expect(submitUntyped(second, actNo(number))).toMatchObject({ ok: true, repeated: number <= ACTS });
    }
    expect(logHead(second).seq).toBe(line + 2);
    const acts = second.sqlite.prepare("SELECT count(*) FROM log WHERE key LIKE 'act-%'").pluck().get();
    expect(acts).toBe(ACTS + 2);
    second.close();
    expect(verifyBook(own)).toMatchObject({ ok: true, problems: [] });
  });

  it('is told when the first does not answer, or does not know its key', async () => {
    const file = tempFile();
    openHall({ file }).book.close();
    const { url, child } = await firstLaptop(file);
    const book = openBookInMemory();
    const following = { address: url, stop: new AbortController().signal, once: true, say: () => undefined };
    expect(await follow(withNoSignIns(book), { ...following, key: 'f'.repeat(64) })).toMatchObject({
      ok: false,
      code: 'not_allowed',
    });
    child.kill('SIGKILL');
    await once(child, 'exit');
    expect(await follow(withNoSignIns(book), { ...following, key: 'f'.repeat(64) })).toMatchObject({
      ok: false,
      code: 'missing',
    });
    book.close();
  });
});

describe('the lines of the first laptop', () => {
  const take = (from: Book, to: Book) => takeLines(to, linesBehind(withNoSignIns(from), logHead(to).seq));

  it('make the second book equal, also where contact data was removed', () => {
    const first = openHall({ stage: 'closed' });
    const dot = first.must('person.enrol', { name: 'Dot Fenn', phone: '555-0188' }).personId;
    first.must('person.forget', { personId: dot, reason: 'Asked' });
    const second = openBookInMemory();
    expect(take(first.book, second)).toMatchObject({ ok: true, value: logHead(first.book).seq });
    expect(rowsOf(second)).toEqual(rowsOf(first.book));
    first.must('person.enrol', { name: 'Later Comer' });
    expect(take(first.book, second)).toEqual({ ok: true, value: 1 });
    expect(rowsOf(second)).toEqual(rowsOf(first.book));
  });

  it('are refused once the books have parted, by a line of its own or one that was changed', () => {
    const first = openHall();
    const second = openBookInMemory();
    take(first.book, second);
    const before = linesBehind(withNoSignIns(first.book), 3);
    expect(takeLines(second, before)).toMatchObject({ ok: false, code: 'conflict' });
    submitUntyped(second, actNo(1));
    expect(take(first.book, second)).toMatchObject({ ok: false, code: 'conflict' });
    const third = openBookInMemory();
    const message = linesBehind(withNoSignIns(first.book), 0);
    const lines = message.lines.map((row) => (row.seq === 4 ? { ...row, worker: 'Bea' } : row));
    expect(takeLines(third, { ...message, lines })).toMatchObject({ ok: false, code: 'conflict' });
  });
});

describe('a laptop that is paired', () => {
  const NOW = 1_800_000_000_000;

  it('has a key of its own for a code, which is good once and for ten minutes', () => {
    const store = storeInMemory('nowhere');
    const [one, other] = [makePairing(store, NOW), makePairing(store, NOW)];
    const said = { code: one.toLowerCase(), name: 'the old laptop' };
    const key = pair(store, said, NOW + CODE_MS);
    if (!key.ok) throw new Error(key.message);
    expect(pair(store, said, NOW)).toMatchObject({ ok: false, field: 'code' });
    expect(pair(store, { ...said, code: other }, NOW + CODE_MS + 1)).toMatchObject({ ok: false, field: 'code' });
    expect(store.sqlite.prepare('SELECT key_hash FROM laptop').pluck().get()).not.toBe(key.value);
    const asked = [key.value, key.value.replace(/./, 'x'), ''].map((given) => mayFollow(store, given, NOW));
    expect(asked).toEqual([true, false, false]);
  });

  it('is listed with its last use, and shut out alone when it is revoked', () => {
    const store = storeInMemory('nowhere');
    const [one, other] = [paired(store, NOW), paired(store, NOW)];
    mayFollow(store, other, NOW + 60_000);
    expect(laptopsOf(store).map(({ name, seen }) => [name, seen])).toEqual(
      expect.arrayContaining([
        ['the other', NOW],
        ['the other', NOW + 60_000],
      ]),
    );
    expect(revokeLaptop(store, 1, { by: 'Ada', now: NOW })).toBe('the other');
    expect(revokeLaptop(store, 1, { by: 'Ada', now: NOW })).toBeNull();
    expect([one, other].map((key) => mayFollow(store, key, NOW))).toEqual([false, true]);
  });
});
