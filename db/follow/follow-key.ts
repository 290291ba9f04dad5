/** The key by which a second laptop is let in: 256 random bits in a file beside the book, to be carried over by hand. */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';

export function followKeyFile(book: string): string {
  return `${book}.follow-key`;
}

/** The key of this book, drawn where there is none yet. */
export function drawFollowKey(book: string): string {
  const file = followKeyFile(book);
  const known = followKey(book);
  if (known !== undefined) return known;
  writeFileSync(file, `${randomBytes(32).toString('hex')}\n`, { mode: 0o600 });
  return followKey(book) ?? '';
}

export function followKey(book: string): string | undefined {
  const file = followKeyFile(book);
  const key = existsSync(file) ? readFileSync(file, 'utf8').trim() : '';
  return /^[0-9a-f]{64}$/.test(key) ? key : undefined;
}

/** Compares in a time that says nothing about how much was right. */
export function mayFollow(book: string, given: string): boolean {
  const key = followKey(book);
  return key !== undefined && timingSafeEqual(sumOf(key), sumOf(given));
}

function sumOf(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}
