/** One-time codes, with which a phone is signed in without a passphrase being typed on it. */
import { randomInt } from 'node:crypto';
import { type SignIns, type Since, sinceNow, stillSince } from './since.ts';
import { digestOf } from './store.ts';

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
export function makeCode({ book, store: { sqlite } }: SignIns, workerId: number, now: number): string {
  const code = drawCode();
  const { line, hash, stations } = sinceNow(book, workerId);
  sqlite.prepare('DELETE FROM code WHERE ends < ?').run(now);
  sqlite
    .prepare('INSERT INTO code (code_hash, worker_id, ends, line, hash, stations) VALUES (?, ?, ?, ?, ?, ?)')
    .run(digestOfCode(code), workerId, now + CODE_MS, line, hash, stations);
  return code;
}

/** Takes a code, however its groups were typed: whose it is, or undefined. It is used up in the same statement. */
export function takeCode({ book, store: { sqlite } }: SignIns, typed: string, now: number): number | undefined {
  const taken = sqlite
    .prepare('DELETE FROM code WHERE code_hash = ? RETURNING worker_id, ends, line, hash, stations')
    .get(digestOfCode(typed)) as (Since & { worker_id: number; ends: number }) | undefined;
  return taken && taken.ends >= now && stillSince(book, taken.worker_id, taken) ? taken.worker_id : undefined;
}
