import { randomBytes } from 'node:crypto';
import { STATIONS, type Station } from '#db/command.ts';
import { openBook } from '#db/open.ts';
import { beginSession } from '#db/signing-in/sessions.ts';
import { openStore } from '#db/signing-in/store.ts';
import { accepted, giveTo } from '#tests/support/hall.ts';

/** A well-formed hash to which nobody knows a passphrase: these workers come in by a session made for them. */
const NO_PASSPHRASE = `$scrypt$ln=17,r=8,p=1$${'A'.repeat(22)}$${'A'.repeat(43)}`;

/** Enters a worker in a book and signs them in at `now` (milliseconds): the token for the cookie `peltry-plain`. */
export function workerIn(
  bookFile: string,
  name: string,
  { stations = STATIONS, now = Date.now() }: { readonly stations?: readonly Station[]; readonly now?: number } = {},
): { readonly id: number; readonly token: string } {
  const book = openBook(bookFile, { create: true });
  const input = { name, passphraseHash: NO_PASSPHRASE, stations };
  const key = randomBytes(8).toString('hex');
  const id = Number(accepted(giveTo(book, 'worker.add', { input, worker: 'a test', key })).workerId);
  const store = openStore(bookFile);
  const token = beginSession({ book, store }, { workerId: id, device: 'a test', now });
  store.close();
  book.close();
  return { id, token };
}
