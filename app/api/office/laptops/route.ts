import * as z from 'zod';
import { saidRoute } from '#app/request/caller.ts';
import { jsonResponse, problem } from '#app/server/responses.ts';
import { withSignIns } from '#app/server/session.ts';
import { ring } from '#app/server/state.ts';
import { makePairing, revokeLaptop } from '#db/follow/laptops.ts';
import { CODE_MS } from '#db/sign-in/credentials.ts';
import { noteHappening } from '#db/sign-in/store.ts';
import { refuse } from '#lib/result/result.ts';

const schema = z.strictObject({
  /** The laptop whose key is taken away; without it a code for a further one is made. */
  revoke: z.int().positive().optional(),
});
const unread = () => refuse('malformed', 'Reload the page and choose the laptop again.');

/** Makes a code for a second laptop, or takes a laptop's key away. */
export const POST = saidRoute({ schema, unread, stations: ['office'] }, async ({ book, caller, said: { revoke } }) => {
  const now = Date.now();
  const by = caller.worker;
  if (revoke === undefined) {
    const code = await withSignIns(book, (store) => {
      noteHappening(store, 'code made', { at: now, who: `a second laptop, by ${by}`, device: '' });
      return makePairing(store, now);
    });
    return jsonResponse({ ok: true, code, minutes: CODE_MS / 60_000 });
  }
  const name = await withSignIns(book, (store) => revokeLaptop(store, revoke, { by, now }));
  if (name === null) return problem(refuse('unknown', 'This laptop is not paired: reload the page.'));
  // What it waits for ends now, and not only with the next entry.
  ring();
  return jsonResponse({ ok: true, name });
});
