import * as z from 'zod';
import { saidRoute } from '#app/request/caller.ts';
import { noCookies, tokenIn } from '#app/server/connection.ts';
import { jsonResponse, problem } from '#app/server/responses.ts';
import { withSignIns } from '#app/server/session.ts';
import { ring } from '#app/server/state.ts';
import { endAllOf, endDevice, endSession } from '#db/sign-in/sessions.ts';
import { noteHappening } from '#db/sign-in/store.ts';
import { refuse } from '#lib/result/result.ts';

const schema = z.strictObject({
  /** This device, or every device of a worker: one's own, or for the office anybody's. */
  allOf: z.int().positive().optional(),
  /** One device of the list, likewise. */
  device: z
    .string()
    .regex(/^[0-9a-f]{16}$/)
    .optional(),
});
const unread = () => refuse('malformed', 'Reload the page and sign out again.');

/** Signs out this device, or all devices of one worker. */
export const POST = saidRoute({ schema, unread }, async ({ book, caller, said: { allOf, device }, request }) => {
  const { id, stations, worker } = caller;
  if (allOf !== undefined && allOf !== id && !stations.includes('office')) {
    return problem(refuse('not_allowed', 'Only the office signs others out.', 'allOf'));
  }
  if (device !== undefined) {
    const whose = stations.includes('office') ? undefined : id;
    const ended = await withSignIns(book, (store) => endDevice(store, device, whose));
    if (ended === 0) return problem(refuse('unknown', 'This device is not signed in any more: reload the page.'));
    await withSignIns(book, (store) => noteHappening(store, 'signed out', { at: Date.now(), who: worker, device: '' }));
    ring();
    return jsonResponse({ ok: true });
  }
  const token = tokenIn(request.headers);
  await withSignIns(book, (store) => {
    if (allOf !== undefined) endAllOf(store, allOf);
    else if (token !== undefined) endSession(store, token);
    noteHappening(store, 'signed out', { at: Date.now(), who: worker, device: '' });
  });
  // What they listen to ends now, and not only with the next entry.
  ring();
  const headers = new Headers({ 'cache-control': 'no-store' });
  if (allOf === undefined || allOf === id) for (const line of noCookies()) headers.append('set-cookie', line);
  return Response.json({ ok: true }, { headers });
});
