import * as z from 'zod';
import { saidRoute } from '#app/request/caller.ts';
import { noCookies, tokenIn } from '#app/server/connection.ts';
import { problem } from '#app/server/responses.ts';
import { withSignIns } from '#app/server/session.ts';
import { endAllOf, endSession } from '#db/sign-in/sessions.ts';
import { noteHappening } from '#db/sign-in/store.ts';
import { refuse } from '#lib/result/result.ts';

const schema = z.strictObject({
  /** This device, or every device of a worker: one's own, or for the office anybody's. */
  allOf: z.int().positive().optional(),
});
const unread = () => refuse('malformed', 'Reload the page and sign out again.');

/** Signs out this device, or all devices of one worker. */
export const POST = saidRoute({ schema, unread }, async ({ book, caller, said: { allOf }, request }) => {
  const { id, stations, worker } = caller;
  if (allOf !== undefined && allOf !== id && !stations.includes('office')) {
    return problem(refuse('not_allowed', 'Only the office signs others out.', 'allOf'));
  }
  const token = tokenIn(request.headers);
  await withSignIns(book, (store) => {
    if (allOf !== undefined) endAllOf(store, allOf);
    else if (token !== undefined) endSession(store, token);
    noteHappening(store, 'signed out', { at: Date.now(), who: worker, device: '' });
  });
  const headers = new Headers({ 'cache-control': 'no-store' });
  if (allOf === undefined || allOf === id) for (const line of noCookies()) headers.append('set-cookie', line);
  return Response.json({ ok: true }, { headers });
});
