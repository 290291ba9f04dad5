import { describe, expect, it, onTestFinished } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { replayLog } from '#db/book/replay.ts';
import { isPassphrase, makeCode } from '#db/sign-in/credentials.ts';
import { hashOf } from '#db/sign-in/passphrases.ts';
import { beginSession, endOthersOf, workerOfToken } from '#db/sign-in/sessions.ts';
import { decideRenewal, type Place, signIn, signInWithCode } from '#db/sign-in/sign-in.ts';
import { openStore } from '#db/sign-in/store.ts';
import { logLines } from '#db/verify/chain.ts';
import { workerByName } from '#db/worker/queries.ts';
import { cheapMark } from '#tests/db/support/passphrases.ts';
import { accepted, giveTo, rowsOf } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

const NOW = 1_800_000_000_000;
const OLD = 'three dry pelts hanging';
const NEW = 'four wet boots drying';
const NAME = 'Wren Tallow';

function place(): Place {
  const file = tempFile();
  const book = openBook(file, { create: true });
  const store = openStore(file);
  onTestFinished(() => {
    store.close();
    book.close();
  });
  for (const [name, stations] of [
    [NAME, ['office']],
    ['Odo', ['till']],
  ] as const) {
    accepted(
      giveTo(book, 'worker.add', { input: { name, passphraseMark: cheapMark({ book, store }, OLD, NOW), stations } }),
    );
  }
  return { book, store, now: NOW, device: 'a test', client: '192.168.1.23' };
}

const renewal = { name: NAME, old: OLD, passphrase: NEW, key: 'key-of-the-entry' };

describe('a passphrase of one’s own', () => {
  it('is changed by whoever shows the old one, and by the book for nobody else', async () => {
    const at = place();
    const decided = await decideRenewal(at, renewal);
    if (!decided.ok) throw new Error(decided.message);
    const input = { passphraseMark: decided.value };
    const key = renewal.key;
    accepted(giveTo(at.book, 'worker.renew', { input, key, worker: 'Odo', station: 'till' }));
    const hashNow = (name: string) => hashOf(at.store, workerByName(at.book, name)?.passphraseMark ?? '') ?? '';
    expect(await isPassphrase(NEW, hashNow('Odo'))).toBe(true);
    expect(await isPassphrase(OLD, hashNow(NAME))).toBe(true);
    const told = JSON.stringify(rowsOf(at.book));
    expect(told).not.toMatch(/scrypt|four wet boots/);
    const replayed = replayLog(logLines(at.book.sqlite));
    expect(replayed.difference).toBeNull();
    replayed.book.close();
  });

  it.each([
    [{ old: 'something else' }, 'not_allowed', 'old'],
    [{ passphrase: 'short' }, 'malformed', 'passphrase'],
    [{ passphrase: OLD }, 'already', 'passphrase'],
  ])('is refused for %j', async (over, code, field) => {
    expect(await decideRenewal(place(), { ...renewal, ...over })).toMatchObject({ ok: false, code, field });
  });

  it('is slowed down by wrong tries, which count together with those of signing in', async () => {
    const at = place();
    await signIn(at, NAME, 'wrong');
    for (let tries = 0; tries < 3; tries += 1) await decideRenewal(at, { ...renewal, old: 'wrong' });
    const slowed = { ok: false, code: 'on_hold', message: expect.stringContaining('2 seconds') };
    expect(await decideRenewal(at, renewal)).toMatchObject({ ...slowed, field: 'old' });
    expect(await signIn(at, NAME, OLD)).toMatchObject(slowed);
    expect(await signIn({ ...at, now: NOW + 3000 }, NAME, OLD)).toMatchObject({ ok: true });
  });

  it('is nobody’s who is not a worker of the book', () => {
    const at = place();
    const input = { passphraseMark: cheapMark(at, NEW, NOW) };
    const answer = giveTo(at.book, 'worker.renew', { input, worker: 'this table' });
    expect(answer).toMatchObject({ ok: false, code: 'unknown' });
  });

  it('ends the sign-ins of the other devices and the codes, of this worker only', () => {
    const at = place();
    const begin = (workerId: number) => beginSession(at, { workerId, device: 'a phone', now: NOW });
    const [here, there, other] = [begin(1), begin(1), begin(2)];
    const code = makeCode(at, 1, NOW);
    endOthersOf(at, 1, here);
    expect([here, there, other].map((token) => workerOfToken(at, token, NOW))).toEqual([1, undefined, 2]);
    expect(signInWithCode(at, code)).toMatchObject({ ok: false });
  });
});
