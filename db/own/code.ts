/** One-time codes of members: drawn by the server, said once, and kept by the book as their SHA-256 only. */
import { createHash, randomInt } from 'node:crypto';

// Without the letters and digits that are taken for one another.
const LETTERS = 'ABCDEFGHJKMNPQRSTVWXYZ23456789';
const LENGTH = 12;

/** Twelve letters in three groups: about 58 bits, so that nobody guesses one within a day. */
export function drawCode(): string {
  const letters = Array.from({ length: LENGTH }, () => LETTERS.charAt(randomInt(LETTERS.length))).join('');
  return letters.replace(/(.{4})(?=.)/g, '$1-');
}

/** The code's SHA-256 in hexadecimal, however its groups were typed. */
export function hashOfCode(typed: string): string {
  return sha256(typed.toUpperCase().replace(/[^A-Z0-9]/g, ''));
}

export function sha256(secret: string): string {
  return createHash('sha256').update(secret).digest('hex');
}
