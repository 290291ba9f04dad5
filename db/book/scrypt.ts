/** A passphrase to a key: scrypt, worked out off the main thread. */
import { scrypt } from 'node:crypto';

/**
 * N = 2^17, r = 8, p = 1 (128 MB and some tenths of a second), the first choice of OWASP's Password Storage Cheat Sheet
 * for scrypt (the figures are from memory).
 */
export const COST = { ln: 17, r: 8, p: 1 } as const;
export type Cost = Readonly<Record<keyof typeof COST, number>>;

const KEY_BYTES = 32;

export function keyOfPassphrase(passphrase: string, salt: Uint8Array, { ln, r, p }: Cost): Promise<Buffer> {
  const N = 2 ** ln;
  // One spelling for a letter that keyboards send in two ways.
  const typed = passphrase.normalize('NFC');
  return new Promise((resolve, reject) => {
    scrypt(typed, salt, KEY_BYTES, { N, r, p, maxmem: 256 * N * r + 2 ** 20 }, (fault, key) =>
      fault ? reject(fault) : resolve(key),
    );
  });
}
