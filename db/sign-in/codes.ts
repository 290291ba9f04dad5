/** One-time codes, with which a phone is signed in without a passphrase being typed on it. */
import { randomInt } from 'node:crypto';
import { eq, lt } from 'drizzle-orm';
import { type SignIns, sinceNow, stillSince } from './since.ts';
import { digestOf } from './store.ts';
import { code } from './tables.ts';

export const CODE_MS = 10 * 60_000;
// Without the letters and digits that are taken for one another.
const LETTERS = 'ABCDEFGHJKMNPQRSTVWXYZ23456789';
const LENGTH = 12;

/** Twelve letters in three groups: about 58 bits, so that nobody guesses one while it is good. */
export function drawCode(): string {
  const letters = Array.from({ length: LENGTH }, () => LETTERS.charAt(randomInt(LETTERS.length))).join('');
  return letters.replace(/(.{4})(?=.)/g, '$1-');
}

/** The SHA-256 of a code in hexadecimal, however its groups were typed. */
export function digestOfCode(typed: string): string {
  return digestOf(typed.toUpperCase().replace(/[^A-Z0-9]/g, ''));
}

/** Makes a code for a worker, good once and for ten minutes. */
export function makeCode({ book, store: { db } }: SignIns, workerId: number, now: number): string {
  const drawn = drawCode();
  db.delete(code).where(lt(code.ends, now)).run();
  const row = { codeHash: digestOfCode(drawn), workerId, ends: now + CODE_MS, ...sinceNow(book, workerId) };
  db.insert(code).values(row).run();
  return drawn;
}

/** Takes a code, however its groups were typed: whose it is, or undefined. It is used up in the same statement. */
export function takeCode({ book, store: { db } }: SignIns, typed: string, now: number): number | undefined {
  const taken = db
    .delete(code)
    .where(eq(code.codeHash, digestOfCode(typed)))
    .returning()
    .get();
  return taken && taken.ends >= now && stillSince(book, taken.workerId, taken) ? taken.workerId : undefined;
}
