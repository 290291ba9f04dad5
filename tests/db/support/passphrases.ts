import { scryptSync } from 'node:crypto';
import type { Book } from '#db/book/open.ts';
import { storeHash } from '#db/sign-in/passphrases.ts';
import type { SignIns } from '#db/sign-in/since.ts';
import { storeInMemory } from '#db/sign-in/store.ts';

/** The hash of a passphrase under scrypt with N = 2, so that tests do not wait; the cost stands in the hash. */
export function cheapHash(words: string): string {
  const salt = Buffer.alloc(16, 7);
  const bare = (bytes: Buffer) => bytes.toString('base64').replace(/=+$/, '');
  return `$scrypt$ln=1,r=8,p=1$${bare(salt)}$${bare(scryptSync(words, salt, 32, { N: 2, r: 8, p: 1 }))}`;
}

/** A book with an empty file of sign-ins that is nowhere. */
export function withNoSignIns(book: Book): SignIns {
  return { book, store: storeInMemory('nowhere') };
}

let keys = 0;

/** Stores a passphrase, hashed at the least cost, and gives its mark for an entry. */
export function cheapMark(signIns: SignIns, words: string, now = Date.now()): string {
  keys += 1;
  const mark = storeHash(signIns, { hash: cheapHash(words), key: `cheap-${keys}`, now });
  if (!mark.ok) throw new Error(mark.message);
  return mark.value;
}
