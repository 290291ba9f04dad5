/**
 * Backups that leave the folder of the book can be locked with a passphrase. Only its key is stored, beside the book: the
 * laptop makes copies by itself, and holds the open book anyway. A copy in the book's own folder is never locked.
 */
import { randomBytes } from 'node:crypto';
import { chmodSync, existsSync, readFileSync, renameSync } from 'node:fs';
import { basename, dirname, join, relative, resolve } from 'node:path';
import type Database from 'better-sqlite3';
import * as z from 'zod';
import { decidePassphrase } from '#db/sign-in/credentials.ts';
import { accept, type Result } from '#lib/result/result.ts';
import { CannotOpenBook, removeCopy, writeToDisk } from './files.ts';
import { openInMemory, openQuietly } from './open-for-reading.ts';
import { fitting, isSealed, type SealKey, sealKeyOf, unseal, unsealTo } from './seal.ts';

const base64 = z.base64().transform((text) => Buffer.from(text, 'base64'));
const stored = z.object({
  /** False where the office has stopped it; the keys still open the copies from before. */
  locks: z.boolean(),
  /** The newest first. */
  keys: z.array(z.object({ cost: z.object({ ln: z.int(), r: z.int(), p: z.int() }), salt: base64, key: base64 })),
});

export const lockFile = (book: string) => `${book}.backup-lock`;

function readLock(book: string): z.output<typeof stored> {
  if (!existsSync(lockFile(book))) return { locks: false, keys: [] };
  try {
    return stored.parse(JSON.parse(readFileSync(lockFile(book), 'utf8')));
  } catch {
    const again = 'Set the passphrase again: Office, Backups, or lock-backups on the command line.';
    throw new CannotOpenBook(`${lockFile(book)} is damaged, and no backup goes to a drive before that. ${again}`);
  }
}

/** What is left of a file that may be damaged, to be written anew. */
function keysLeft(book: string): readonly SealKey[] {
  try {
    return readLock(book).keys;
  } catch {
    return [];
  }
}

function writeLock(book: string, locks: boolean, keys: readonly SealKey[]): void {
  const text = (bytes: Buffer) => bytes.toString('base64');
  const said = { locks, keys: keys.map(({ cost, salt, key }) => ({ cost, salt: text(salt), key: text(key) })) };
  const draft = `${lockFile(book)}.${randomBytes(4).toString('hex')}.partial`;
  writeToDisk(draft, `${JSON.stringify(said, null, 2)}\n`);
  chmodSync(draft, 0o600);
  renameSync(draft, lockFile(book));
}

export function locksBackups(book: string): boolean {
  try {
    return readLock(book).locks;
  } catch {
    return true;
  }
}

/** From now on copies that leave the book's folder are locked with this passphrase. */
export async function lockBackups(book: string, passphrase: string): Promise<Result<null>> {
  const said = decidePassphrase(passphrase);
  if (!said.ok) return said;
  const key = await sealKeyOf(passphrase);
  writeLock(book, true, [key, ...keysLeft(book)]);
  return accept(null);
}

/** The same by a key that opened a backup of this book, where the book has none yet. */
export function keepLocked(book: string, key: SealKey): void {
  if (!existsSync(lockFile(book))) writeLock(book, true, [key]);
}

/** From now on no copy is locked. Those that are stay so, and this laptop can still read them. */
export function leaveBackupsOpen(book: string): void {
  if (existsSync(lockFile(book))) writeLock(book, false, keysLeft(book));
}

/** The key for a copy at `target`; null where it is not locked. */
export function keyForCopy(book: string, target: string): SealKey | null {
  const { locks, keys } = readLock(book);
  const isBeside = !/^(\.\.|\/|[A-Za-z]:)/.test(relative(dirname(resolve(book)), resolve(target)));
  return locks && !isBeside ? (keys[0] ?? null) : null;
}

/** What dated copies in this folder end in. */
export function endingFor(book: string, folder: string): '.book' | '.book.locked' {
  return keyForCopy(book, join(folder, 'a copy')) ? '.book.locked' : '.book';
}

/** A new name beside the book, for what must not lie on a drive in clear. */
export function draftBeside(book: string, copy: string): string {
  return join(dirname(resolve(book)), `${basename(copy)}.${randomBytes(4).toString('hex')}.partial`);
}

/**
 * Does something with the open form of a copy, which is gone afterwards; null where it is locked and none of the keys of
 * this book opens it whole.
 */
export function withOpenForm<T>(book: string, copy: string, work: (file: string) => T): T | null {
  if (!isSealed(copy)) return work(copy);
  const key = fitting(copy, readLock(book).keys);
  if (!key) return null;
  const plain = draftBeside(book, copy);
  try {
    return unsealTo(copy, plain, key).ok ? work(plain) : null;
  } finally {
    removeCopy(plain);
  }
}

/** Opens a copy to be read, a locked one in memory; null where that is not possible. */
export function openCopy(book: string, copy: string): Database.Database | null {
  try {
    if (!isSealed(copy)) return openQuietly(copy);
    const key = fitting(copy, readLock(book).keys);
    const parts: Buffer[] = [];
    return key && unseal(copy, key, (plain) => parts.push(plain)).ok ? openInMemory(Buffer.concat(parts)) : null;
  } catch {
    return null;
  }
}
