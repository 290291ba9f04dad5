import { openBook } from '#db/open.ts';
import { AT, accepted, giveTo } from '#tests/support/hall.ts';
import { HALL_HOST } from './chromium.ts';

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
