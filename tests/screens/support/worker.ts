import { randomBytes } from 'node:crypto';
import { STATIONS, type Station } from '#db/book/command.ts';
import { openBook } from '#db/book/open.ts';
import { beginSession } from '#db/sign-in/sessions.ts';
import { openStore } from '#db/sign-in/store.ts';
import { AT, accepted, giveTo } from '#tests/support/hall.ts';
import { HALL_HOST } from './chromium.ts';

/** A mark under which no hash is stored: these workers come in by a session made for them. */
const NO_PASSPHRASE = 'a'.repeat(64);

/** Enters a worker in a book and signs them in at `now` (milliseconds): the token for the cookie `peltry-plain`. */
export function workerIn(
  bookFile: string,
  name: string,
  { stations = STATIONS, now = Date.now() }: { readonly stations?: readonly Station[]; readonly now?: number } = {},
): { readonly id: number; readonly token: string } {
  const book = openBook(bookFile, { create: true });
  const input = { name, passphraseMark: NO_PASSPHRASE, stations };
  const key = randomBytes(8).toString('hex');
  const id = Number(accepted(giveTo(book, 'worker.add', { input, worker: 'a test', key })).workerId);
  const store = openStore(bookFile);
  const token = beginSession({ book, store }, { workerId: id, device: 'a test', now });
  store.close();
  book.close();
  return { id, token };
}

/**
 * Says in the book what an office says that has no certificate: the hall's name is ours, and staff may work on an open
 * line. Said once, however often the server starts.
 */
export function officeAllowsOpenLine(bookFile: string): void {
  const book = openBook(bookFile, { create: true });
  const input = { hosts: [HALL_HOST], plainStaff: true, reason: 'the tests of plain http' };
  // At the time of the newest entry, so that no clock is thought to be behind or ahead because of it.
  const at = book.sqlite.prepare<[], string>('SELECT at FROM log ORDER BY seq DESC LIMIT 1').pluck().get() ?? AT;
  accepted(giveTo(book, 'network.set', { input, at, worker: 'a test', key: 'tests of plain http' }));
  book.close();
}
