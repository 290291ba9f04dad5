import * as z from 'zod';
import { saidRoute } from '#app/request/caller.ts';
import { jsonResponse, problem } from '#app/server/responses.ts';
import { withSignIns } from '#app/server/session.ts';
import { CODE_MS, makeCode } from '#db/sign-in/credentials.ts';
import { noteHappening } from '#db/sign-in/store.ts';
import { workerById } from '#db/worker/queries.ts';
import { refuse } from '#lib/result/result.ts';

const schema = z.strictObject({ workerId: z.int().positive() });
const unread = () => refuse('malformed', 'Reload the page and choose the worker again.', 'workerId');

/** Makes a one-time code for a worker: the office for anybody, everybody for themselves. */
export const POST = saidRoute({ schema, unread }, async ({ book, caller, said: { workerId } }) => {
  const { stations, id, worker } = caller;
  if (id !== workerId && !stations.includes('office')) {
    return problem(refuse('not_allowed', 'Only the office makes codes for others.', 'workerId'));
  }
  const whose = workerById(book, workerId);
  if (!whose || whose.hasLeft) {
    return problem(refuse('unknown', 'This worker cannot sign in: choose another.', 'workerId'));
  }
  const now = Date.now();
  const code = await withSignIns(book, (store) => {
    const made = makeCode({ book, store }, workerId, now);
    noteHappening(store, 'code made', { at: now, who: `${whose.name}, by ${worker}`, device: '' });
    return made;
  });
  return jsonResponse({ ok: true, code, minutes: CODE_MS / 60_000 });
});
