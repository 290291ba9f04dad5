/** The laptops that may follow this one: each is paired by a one-time code and then has a key of its own. */
import { randomBytes } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { desc, eq, lt } from 'drizzle-orm';
import * as z from 'zod';
import { CODE_MS, digestOfCode, drawCode } from '#db/sign-in/credentials.ts';
import { digestOf, noteHappening, noteRefused, printable, type Store } from '#db/sign-in/store.ts';
import { laptop, pairing } from '#db/sign-in/tables.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';

/** What a second laptop says to be paired. */
export const pairInput = z.strictObject({ code: z.string().min(1).max(40), name: z.string().min(1).max(80) });

export interface Pairing extends z.output<typeof pairInput> {
  /** Whose requests these are, as the gate counts them. */
  readonly client?: string;
}

export interface Laptop {
  readonly id: number;
  readonly name: string;
  /** Milliseconds since 1970, as `seen`, when it last asked. */
  readonly paired: number;
  readonly seen: number;
}

/** Makes a code for a second laptop, good once and for ten minutes. `now` in milliseconds since 1970. */
export function makePairing({ db }: Store, now: number): string {
  const drawn = drawCode();
  db.delete(pairing).where(lt(pairing.ends, now)).run();
  db.insert(pairing)
    .values({ codeHash: digestOfCode(drawn), ends: now + CODE_MS })
    .run();
  return drawn;
}

/** Pairs the laptop that brings a good code, and gives its key: 256 bits, of which only the SHA-256 stays here. */
export function pair(store: Store, { code, name, client = '' }: Pairing, now: number): Result<string> {
  const { db } = store;
  const used = db
    .delete(pairing)
    .where(eq(pairing.codeHash, digestOfCode(code)))
    .returning()
    .get();
  if (!used || used.ends < now) {
    noteRefused(store, 'wrong code', { at: now, who: name, device: 'a second laptop', client });
    return refuse('not_allowed', 'This code is not good any more: make another at Office, Doors.', 'code');
  }
  const key = randomBytes(32).toString('hex');
  db.insert(laptop)
    .values({ name: printable(name), keyHash: digestOf(key), paired: now, seen: now })
    .run();
  noteHappening(store, 'laptop paired', { at: now, who: name, device: '' });
  return accept(key);
}

const SEEN_EVERY_MS = 10_000;

/** Whether a paired laptop shows this key. */
export function mayFollow({ db }: Store, key: string, now: number): boolean {
  const row = db
    .select()
    .from(laptop)
    .where(eq(laptop.keyHash, digestOf(key)))
    .get();
  if (row && row.seen < now - SEEN_EVERY_MS) db.update(laptop).set({ seen: now }).where(eq(laptop.id, row.id)).run();
  return row !== undefined;
}

/** All that are paired, the newest first. */
export function laptopsOf({ db }: Store): Laptop[] {
  return db
    .select({ id: laptop.id, name: laptop.name, paired: laptop.paired, seen: laptop.seen })
    .from(laptop)
    .orderBy(desc(laptop.paired))
    .all();
}

/** Takes a laptop's key away; null where it has none. Gives its name. */
export function revokeLaptop(store: Store, id: number, { by, now }: { by: string; now: number }): string | null {
  const gone = store.db.delete(laptop).where(eq(laptop.id, id)).returning().get();
  if (gone) noteHappening(store, 'laptop revoked', { at: now, who: `${gone.name}, by ${by}`, device: '' });
  return gone?.name ?? null;
}

/** Where the second laptop holds its key, beside its own book. */
export function followKeyFile(book: string): string {
  return `${book}.follow-key`;
}

export function storeFollowKey(book: string, key: string): void {
  writeFileSync(followKeyFile(book), `${key}\n`, { mode: 0o600 });
}

export function followKey(book: string): string | undefined {
  const file = followKeyFile(book);
  const key = existsSync(file) ? readFileSync(file, 'utf8').trim() : '';
  return /^[0-9a-f]{64}$/.test(key) ? key : undefined;
}
