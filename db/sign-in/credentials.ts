/** Passphrases as scrypt hashes in the PHC string format, and one-time codes. */
import { createHash, randomInt, timingSafeEqual } from 'node:crypto';
import { eq, lt } from 'drizzle-orm';
import { COST, keyOfPassphrase } from '#db/book/scrypt.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { type SignIns, sinceNow, stillSince } from './since.ts';
import { digestOf } from './store.ts';
import { code } from './tables.ts';

const SALT_BYTES = 16;
const SHORTEST = 10;
const LONGEST = 200;

/** A passphrase may hold anything; it is only to be long enough, and not so long that hashing it is a burden. */
export function decidePassphrase(passphrase: string): Result<string> {
  const letters = [...passphrase].length;
  if (letters < SHORTEST) {
    return refuse('malformed', `Use at least ${SHORTEST} characters: a few words are easy to keep.`, 'passphrase');
  }
  if (letters > LONGEST) return refuse('too_large', `Use at most ${LONGEST} characters.`, 'passphrase');
  return accept(passphrase);
}

/**
 * The hash of a passphrase. The salt is drawn from the random key of the entry: so an entry that is sent twice carries
 * the same hash twice, and two entries never share a salt.
 */
export async function hashPassphrase(passphrase: string, key: string): Promise<string> {
  const salt = createHash('sha256').update('passphrase salt\0').update(key).digest().subarray(0, SALT_BYTES);
  const { ln, r, p } = COST;
  const hash = await keyOfPassphrase(passphrase, salt, COST);
  return `$scrypt$ln=${ln},r=${r},p=${p}$${bare(salt)}$${bare(hash)}`;
}

const FORM = /^\$scrypt\$ln=(1?\d|20),r=(\d{1,2}),p=(\d{1,2})\$([^$]+)\$([^$]+)$/;

/** Whether this is the passphrase of the hash, told in the same time whether it is or not. */
export async function isPassphrase(passphrase: string, phc: string): Promise<boolean> {
  const [, ln, r, p, salt, hash] = FORM.exec(phc) ?? [];
  if (!ln || !r || !p || !salt || !hash) return false;
  const whole = (digits: string) => Number.parseInt(digits, 10);
  const ought = Buffer.from(hash, 'base64');
  const cost = { ln: whole(ln), r: whole(r), p: whole(p) };
  const is = await keyOfPassphrase(passphrase, Buffer.from(salt, 'base64'), cost);
  return ought.length === is.length && timingSafeEqual(ought, is);
}

function bare(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('base64').replace(/=+$/, '');
}

/** How long a one-time code is good, with which a phone is signed in without a passphrase being typed on it. */
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
