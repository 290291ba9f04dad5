import * as z from 'zod';
import { saidRoute } from '#app/request/caller.ts';
import { jsonResponse, problem } from '#app/server/responses.ts';
import { withSignIns } from '#app/server/session.ts';
import { leaveBackupsOpen, lockBackups } from '#db/book/lock.ts';
import { noteHappening } from '#db/sign-in/store.ts';
import { refuse } from '#lib/result/result.ts';

const schema = z.strictObject({
  /** Left out where no further copy is to be locked. */
  passphrase: z.string().max(1000).optional(),
});
const unread = () => refuse('missing', 'Enter a passphrase for the backups.', 'passphrase');

/** Locks the copies that leave the folder of the book with this passphrase from now on, or no further ones. */
export const POST = saidRoute({ schema, unread, stations: ['office'] }, async ({ book, caller, said }) => {
  const { passphrase } = said;
  if (passphrase === undefined) leaveBackupsOpen(book.file);
  const done = passphrase === undefined ? null : await lockBackups(book.file, passphrase);
  if (done?.ok === false) return problem(done);
  const what = done ? 'backups locked' : 'backups left open';
  await withSignIns(book, (store) => noteHappening(store, what, { at: Date.now(), who: caller.worker, device: '' }));
  return jsonResponse({ ok: true });
});
