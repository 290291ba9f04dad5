import Database from 'better-sqlite3';
import { getTableColumns, getTableName } from 'drizzle-orm';
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import { describe, expect, it, onTestFinished } from 'vitest';
import { STATIONS } from '#db/book/command.ts';
import { openBook } from '#db/book/open.ts';
import type { CommandName, InputOf } from '#db/commands.ts';
import { CODE_MS, decidePassphrase, hashPassphrase, isPassphrase, makeCode } from '#db/sign-in/credentials.ts';
import {
  beginSession,
  dropEnded,
  endAllOf,
  endSession,
  IDLE_MS,
  LONGEST_MS,
  workerOfToken,
} from '#db/sign-in/sessions.ts';
import { type Place, signIn, signInWithCode } from '#db/sign-in/sign-in.ts';
import { digestOf, openStore } from '#db/sign-in/store.ts';
import * as tables from '#db/sign-in/tables.ts';
import { workerByName } from '#db/worker/queries.ts';
import { cheapMark } from '#tests/db/support/passphrases.ts';
import { giveTo } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

const NOW = 1_800_000_000_000;
const PASSPHRASE = 'three dry pelts hanging';

async function place(): Promise<Place> {
  const file = tempFile();
  const book = openBook(file, { create: true });
  const store = openStore(file);
  onTestFinished(() => {
    store.close();
    book.close();
  });
  const input = {
    name: 'Wren Tallow',
    passphraseMark: cheapMark({ book, store }, PASSPHRASE, NOW),
    stations: [...STATIONS],
  };
  giveTo(book, 'worker.add', { input });
  return { book, store, now: NOW, device: 'a test', client: '192.168.1.23' };
}

describe('a passphrase', () => {
  it('is right with its own hash only, and the hash is that of the key it came with', async () => {
    const hash = await hashPassphrase(PASSPHRASE, 'key-one');
    expect(hash).toMatch(/^\$scrypt\$ln=17,r=8,p=1\$/);
    expect(await hashPassphrase(PASSPHRASE, 'key-one')).toBe(hash);
    expect(await isPassphrase(PASSPHRASE, hash)).toBe(true);
    expect(await isPassphrase(`${PASSPHRASE} `, hash)).toBe(false);
    expect(await isPassphrase(PASSPHRASE, 'nonsense')).toBe(false);
  });

  // RFC 7914, section 12: the second test vector ("password", "NaCl", N = 1024, r = 8, p = 16), first 32 of 64 bytes.
  it('is hashed by scrypt as RFC 7914 has it', async () => {
    const salt = Buffer.from('NaCl').toString('base64').replace(/=+$/, '');
    const hex = 'fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b373162';
    const hash = Buffer.from(hex, 'hex').toString('base64').replace(/=+$/, '');
    expect(await isPassphrase('password', `$scrypt$ln=10,r=8,p=16$${salt}$${hash}`)).toBe(true);
  });

  it('has ten characters at least, counted as a person counts, and two hundred at most', () => {
    expect(decidePassphrase('nine char')).toMatchObject({ ok: false, code: 'malformed', field: 'passphrase' });
    expect(decidePassphrase('żżżżżżżżżż')).toMatchObject({ ok: true });
    expect(decidePassphrase('x'.repeat(201))).toMatchObject({ ok: false, code: 'too_large' });
  });
});

describe('signing in', () => {
  it('takes the name however it is typed, and the passphrase exactly', async () => {
    const at = await place();
    expect(await signIn(at, 'wren  TALLOW', PASSPHRASE)).toMatchObject({ ok: true });
    expect(await signIn(at, 'Wren Tallow', 'something else')).toMatchObject({ ok: false, code: 'not_allowed' });
  });

  it('says the same of a wrong passphrase and of a name that nobody has', async () => {
    const at = await place();
    const [one, other] = [await signIn(at, 'Wren Tallow', 'wrong'), await signIn(at, 'Nobody', 'wrong')];
    expect(one).toEqual(other);
  });

  it('slows an account down, tells for how long, and lets its worker in again within a minute', async () => {
    const at = await place();
    for (let tries = 0; tries < 4; tries += 1) await signIn(at, 'Wren Tallow', 'wrong');
    const slowed = await signIn(at, 'Wren Tallow', PASSPHRASE);
    expect(slowed).toMatchObject({ ok: false, code: 'on_hold', message: expect.stringContaining('2 seconds') });
    expect(await signIn({ ...at, now: NOW + 61_000 }, 'Wren Tallow', PASSPHRASE)).toMatchObject({ ok: true });
    expect(await signIn({ ...at, now: NOW + 61_000 }, 'Wren Tallow', 'wrong')).toMatchObject({ code: 'not_allowed' });
  });

  it('keeps a name waiting where it is guessed, and elsewhere only once it is guessed from many places', async () => {
    const at = await place();
    const guess = async (client: string) => {
      for (let tries = 0; tries < 4; tries += 1) await signIn({ ...at, client }, 'Wren Tallow', 'wrong');
    };
    for (const last of [1, 2, 3, 4]) await guess(`10.0.0.${last}`);
    expect(await signIn(at, 'Wren Tallow', PASSPHRASE)).toMatchObject({ ok: true });
    await guess('10.0.0.5');
    expect(await signIn(at, 'Wren Tallow', PASSPHRASE)).toMatchObject({ ok: false, code: 'on_hold' });
  });

  it('is counted by place and hour where it fails, and adds nothing to the list of who signed in', async () => {
    const at = await place();
    for (let tries = 0; tries < 9; tries += 1) signInWithCode(at, `WRONG-${tries}`);
    await signIn(at, 'Wren\u202e', 'wrong');
    const rows = at.store.sqlite.prepare('SELECT client, what, times, who FROM refused_try ORDER BY what').all();
    const client = '192.168.1.23';
    expect(rows).toEqual([
      { client, what: 'wrong code', times: 9, who: '' },
      { client, what: 'wrong passphrase', times: 1, who: 'Wren?' },
    ]);
    expect(at.store.sqlite.prepare('SELECT count(*) FROM happening').pluck().get()).toBe(0);
    for (let last = 0; last < 2100; last += 1) signInWithCode({ ...at, now: NOW + last, client: `c${last}` }, 'WRONG');
    expect(at.store.sqlite.prepare('SELECT count(*) FROM refused_try').pluck().get()).toBe(2000);
  });

  it('does not wait for hours where the clock was set back', async () => {
    const at = await place();
    for (let tries = 0; tries < 4; tries += 1) await signIn(at, 'Wren Tallow', 'wrong');
    const earlier = { ...at, now: NOW - 86_400_000 };
    expect(await signIn(earlier, 'Wren Tallow', PASSPHRASE)).toMatchObject({ ok: true });
  });

  it('is not for a worker who has left', async () => {
    const at = await place();
    const input = { name: 'Odo', passphraseMark: cheapMark(at, PASSPHRASE, NOW), stations: ['office'] } as const;
    giveTo(at.book, 'worker.add', { input });
    giveTo(at.book, 'worker.amend', { input: { workerId: 1, stations: ['office'], hasLeft: true } });
    expect(workerByName(at.book, 'Wren Tallow')?.hasLeft).toBe(true);
    expect(await signIn(at, 'Wren Tallow', PASSPHRASE)).toMatchObject({ ok: false, code: 'not_allowed' });
    expect(signInWithCode(at, makeCode(at, 1, NOW))).toMatchObject({ ok: false });
  });
});

describe('a one-time code', () => {
  it('is good once, however it is typed', async () => {
    const at = await place();
    const code = makeCode(at, 1, NOW);
    expect(code).toMatch(/^[A-Z2-9]{4}-[A-Z2-9]{4}-[A-Z2-9]{4}$/);
    expect(signInWithCode(at, code.toLowerCase().replaceAll('-', ' '))).toMatchObject({ ok: true });
    expect(signInWithCode(at, code)).toMatchObject({ ok: false, field: 'code' });
  });

  it('is good for ten minutes', async () => {
    const at = await place();
    const [one, other] = [makeCode(at, 1, NOW), makeCode(at, 1, NOW)];
    expect(signInWithCode({ ...at, now: NOW + CODE_MS }, one)).toMatchObject({ ok: true });
    expect(signInWithCode({ ...at, now: NOW + CODE_MS + 1 }, other)).toMatchObject({ ok: false });
  });
});

describe('a session', () => {
  const begun = { workerId: 1, device: 'a phone', now: NOW };

  it('ends by itself, after a day at the longest and sooner where nobody uses it', async () => {
    const at = await place();
    const token = beginSession(at, begun);
    expect(workerOfToken(at, token, NOW + IDLE_MS)).toBe(1);
    expect(workerOfToken(at, token, NOW + IDLE_MS + IDLE_MS)).toBe(1);
    expect(workerOfToken(at, token, NOW + LONGEST_MS + 1)).toBeUndefined();
    const idle = beginSession(at, begun);
    expect(workerOfToken(at, idle, NOW + IDLE_MS + 1)).toBeUndefined();
  });

  it('is ended on one device, or on all with the codes that were made', async () => {
    const at = await place();
    const [one, two, three] = [beginSession(at, begun), beginSession(at, begun), beginSession(at, begun)];
    endSession(at.store, one);
    expect([one, two, three].map((token) => workerOfToken(at, token, NOW))).toEqual([undefined, 1, 1]);
    const code = makeCode(at, 1, NOW);
    expect(endAllOf(at.store, 1)).toBe(2);
    expect([two, three].map((token) => workerOfToken(at, token, NOW))).toEqual([undefined, undefined]);
    expect(code).not.toBe('');
    expect(at.store.sqlite.prepare('SELECT count(*) FROM code').pluck().get()).toBe(0);
  });

  it('ends with what the office says of its worker, also on the command line, and so do the codes', async () => {
    const at = await place();
    const say = <N extends CommandName>(command: N, input: InputOf<N>) =>
      expect(giveTo(at.book, command, { input })).toMatchObject({ ok: true });
    const [passphraseMark, stations] = [cheapMark(at, 'four wet boots drying', NOW), ['till', 'payout']] as const;
    say('worker.add', { name: 'Odo', passphraseMark, stations });
    const held = { ...begun, workerId: 2 };
    const changes = [
      ['worker.passphrase', { workerId: 2, passphraseMark }],
      ['worker.amend', { workerId: 2, stations: ['till'], hasLeft: false }],
      ['worker.amend', { workerId: 2, stations: ['till'], hasLeft: true }],
    ] as const;
    for (const [command, input] of changes) {
      say('worker.amend', { workerId: 2, stations, hasLeft: false });
      const [token, other, code] = [beginSession(at, held), beginSession(at, begun), makeCode(at, 2, NOW)];
      say('worker.amend', { workerId: 2, stations: ['till', 'payout', 'intake'], hasLeft: false });
      expect(workerOfToken(at, token, NOW)).toBe(2);
      say(command, input);
      // Back again, and with every station: nothing revives.
      say('worker.amend', { workerId: 2, stations: [...STATIONS], hasLeft: false });
      expect([workerOfToken(at, token, NOW), workerOfToken(at, other, NOW)]).toEqual([undefined, 1]);
      expect(signInWithCode(at, code)).toMatchObject({ ok: false });
    }
    dropEnded(at);
    const left = at.store.sqlite.prepare('SELECT DISTINCT worker_id FROM session').pluck().all();
    expect(left).toEqual([1]);
  });

  it('is of its own book: not of another at the same place, nor of one that lost its end and went on', async () => {
    const [at, other] = [await place(), await place()];
    const token = beginSession(at, begun);
    expect(workerOfToken({ book: other.book, store: at.store }, token, NOW)).toBeUndefined();
    const later = cheapMark(at, 'six old hats on pegs', NOW);
    for (const { book } of [at, other])
      giveTo(book, 'worker.passphrase', { input: { workerId: 1, passphraseMark: later } });
    const last = beginSession(at, begun);
    giveTo(other.book, 'worker.amend', { input: { workerId: 1, stations: [...STATIONS], hasLeft: false } });
    expect(workerOfToken({ book: other.book, store: at.store }, last, NOW)).toBeUndefined();
  });

  it('of an older version, which does not say where it began, is not taken', () => {
    const file = tempFile();
    const older = new Database(`${file}.sign-ins`);
    older.exec(`CREATE TABLE session (token_hash TEXT PRIMARY KEY, worker_id INTEGER NOT NULL, device TEXT NOT NULL,
      began INTEGER NOT NULL, seen INTEGER NOT NULL) STRICT;
      CREATE TABLE code (code_hash TEXT PRIMARY KEY, worker_id INTEGER NOT NULL, ends INTEGER NOT NULL) STRICT;
      INSERT INTO session VALUES ('${digestOf('token')}', 1, 'a phone', ${NOW}, ${NOW});`);
    older.close();
    for (const ought of [0, 1]) {
      const store = openStore(file);
      expect(store.sqlite.prepare('SELECT count(line) FROM session').pluck().get()).toBe(ought);
      store.sqlite.exec(`INSERT INTO session VALUES ('${ought}', 1, '', 0, 0, 1, '', '')`);
      store.close();
    }
  });

  it('is kept by the digest of its token only', async () => {
    const at = await place();
    const token = beginSession(at, begun);
    expect(at.store.sqlite.prepare('SELECT token_hash FROM session').pluck().all()).toEqual([digestOf(token)]);
  });
});

describe('the file of sign-ins', () => {
  it('has the tables and columns that are asked of it, and no other', async () => {
    const { store } = await place();
    const made = store.sqlite.prepare("SELECT name FROM sqlite_master WHERE type = 'table'").pluck().all();
    expect(Object.values(tables).map(getTableName).sort()).toEqual([...made].sort());
    for (const table of Object.values(tables)) {
      const columns = Object.values(getTableColumns<SQLiteTable>(table));
      const asked = columns.map(({ name, primary }) => [name, primary ? 1 : 0]).sort();
      const info = 'SELECT name, pk FROM pragma_table_info(?) ORDER BY name';
      expect(store.sqlite.prepare(info).raw().all(getTableName(table))).toEqual(asked);
    }
  });
});
