import { randomUUID } from 'node:crypto';
import * as z from 'zod';
import { callerAt, saidRoute } from '#app/request/caller.ts';
import { give } from '#app/server/answer-entry.ts';
import { connectionOf, tokenIn } from '#app/server/connection.ts';
import { jsonResponse, problem, troubleProblem } from '#app/server/responses.ts';
import { withSignIns, withSignInsNow } from '#app/server/session.ts';
import { dropOldHashes } from '#db/sign-in/passphrases.ts';
import { endOthersOf } from '#db/sign-in/sessions.ts';
import { decideRenewal } from '#db/sign-in/sign-in.ts';
import { noteHappening } from '#db/sign-in/store.ts';
import { refuse } from '#lib/result/result.ts';

const schema = z.strictObject({ old: z.string().min(1).max(1000), passphrase: z.string().min(1).max(1000) });
const unread = () => refuse('missing', 'Enter the passphrase you have, and a new one.', 'old');

/** Changes the passphrase of whoever is signed in, who shows the old one; their other devices are signed out. */
export const POST = saidRoute({ schema, unread }, async ({ book, caller, said, request }) => {
  const { id, worker } = caller;
  const [station] = caller.stations;
  const token = tokenIn(request.headers);
  if (id === undefined || station === undefined || token === undefined) {
    return problem(refuse('signed_out', 'Nobody is signed in on this device: sign in first.'));
  }
  const now = Date.now();
  const device = request.headers.get('user-agent') ?? '';
  const { client } = connectionOf(request.headers);
  const key = randomUUID();
  const mark = await withSignIns(book, (store) =>
    decideRenewal({ book, store, now, device, client }, { name: worker, ...said, key }),
  );
  if (!mark.ok) return problem(mark);
  // Hashing takes a moment, in which the office may have signed them out.
  const still = await callerAt();
  if (!still.ok) return problem(still);
  const input = { passphraseMark: mark.value };
  const answer = give(book, { command: 'worker.renew', input, worker, station, at: new Date(now).toISOString(), key });
  if ('stopped' in answer) return troubleProblem(answer.stopped);
  if (!answer.ok) return problem(answer);
  // Between the entry and this no request of this device may come: it would be signed out, too.
  withSignInsNow(book, (store) => {
    endOthersOf({ book, store }, id, token);
    dropOldHashes({ book, store }, now);
    noteHappening(store, 'passphrase changed', { at: now, who: worker, device });
  });
  return jsonResponse({ ok: true });
});
