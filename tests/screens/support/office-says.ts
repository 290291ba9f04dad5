import { openBook } from '#db/open.ts';
import { accepted, giveTo } from '#tests/support/hall.ts';
import { HALL_HOST } from './browser.ts';

/**
 * Says in the book what an office says that has no certificate: the hall's name is ours, and staff may work on an open
 * line. Said once, however often the server starts.
 */
export function officeAllowsOpenLine(bookFile: string): void {
  const book = openBook(bookFile, { create: true });
  const input = { hosts: [HALL_HOST], plainStaff: true, reason: 'the tests of plain http' };
  accepted(giveTo(book, 'network.set', { input, worker: 'a test', key: 'tests of plain http' }));
  book.close();
}
