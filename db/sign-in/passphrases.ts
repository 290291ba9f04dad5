/**
 * The hashes of passphrases, stored beside the book under a mark that the worker's row names. The log therefore says that
 * somebody got another passphrase and never what would let a guesser try: neither a backup nor the log holds a hash. A
 * paired laptop gets them with the lines, so that everybody can sign in there after it took over.
 */
import { createHash } from 'node:crypto';
import { and, eq, lt, notInArray } from 'drizzle-orm';
import { type Book, query } from '#db/book/open.ts';
import { worker } from '#db/schema/index.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { hashPassphrase } from './credentials.ts';
import type { SignIns } from './since.ts';
import type { Store } from './store.ts';
import { passphrase } from './tables.ts';

/** How long a hash waits for the entry that names it, in milliseconds. */
const WAITS_MS = 60_000;

/** Marks and hashes, as they go to a paired laptop. */
export type Hashes = readonly (readonly [mark: string, hash: string])[];

/** The mark that an entry with this key gives; hexadecimal, 64 digits. */
function markOf(key: string): string {
  return createHash('sha256').update('passphrase mark\0').update(key).digest('hex');
}

/**
 * Stores the hash of a passphrase, before the entry with this key names it, and gives its mark. Sent twice it gives the
 * same; refused (`conflict`) where another passphrase came with the key. Hashes that no worker has any more go.
 */
export async function storePassphrase(
  signIns: SignIns,
  { words, key, now }: { readonly words: string; readonly key: string; readonly now: number },
): Promise<Result<string>> {
  return storeHash(signIns, { hash: await hashPassphrase(words, key), key, now });
}

/** The same with a hash that is worked out already. */
export function storeHash(
  signIns: SignIns,
  { hash, key, now }: { readonly hash: string; readonly key: string; readonly now: number },
): Result<string> {
  const mark = markOf(key);
  const { store } = signIns;
  dropOldHashes(signIns, now);
  store.db.insert(passphrase).values({ mark, hash, at: now }).onConflictDoNothing().run();
  if (hashOf(store, mark) === hash) return accept(mark);
  return refuse('conflict', 'Reload the page and enter the passphrase again.', 'passphrase');
}

/** The hash under a mark; undefined where it is not here, as in a book that was restored on another laptop. */
export function hashOf({ db }: Store, mark: string): string | undefined {
  return db.select().from(passphrase).where(eq(passphrase.mark, mark)).get()?.hash;
}

/** Hashes that no worker has any more go, but for those whose entry is just coming. */
export function dropOldHashes({ book, store: { db } }: SignIns, now: number): void {
  const old = and(notInArray(passphrase.mark, marksOf(book)), lt(passphrase.at, now - WAITS_MS));
  db.delete(passphrase).where(old).run();
}

const findMarks = query(({ db }) => db.select({ mark: worker.passphraseMark }).from(worker));

function marksOf(book: Book): string[] {
  return findMarks(book)
    .all()
    .map(({ mark }) => mark);
}

/** The hashes that workers of the book have now. */
export function hashesNow({ book, store }: SignIns): Hashes {
  return marksOf(book).flatMap((mark) => {
    const hash = hashOf(store, mark);
    return hash === undefined ? [] : [[mark, hash] as const];
  });
}

/** Makes the stored hashes those of the first laptop. */
export function takeHashes({ db }: Store, hashes: Hashes): void {
  for (const [mark, hash] of hashes) db.insert(passphrase).values({ mark, hash, at: 0 }).onConflictDoNothing().run();
  const marks = hashes.map(([mark]) => mark);
  db.delete(passphrase).where(notInArray(passphrase.mark, marks)).run();
}

/** Whether there are workers and none of them can sign in with a passphrase, as after a restore on another laptop. */
export function lacksPassphrases({ book, store }: SignIns): boolean {
  const marks = marksOf(book);
  return marks.length > 0 && marks.every((mark) => hashOf(store, mark) === undefined);
}
