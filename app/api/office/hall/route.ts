import * as z from 'zod';
import { saidRoute } from '#app/request/caller.ts';
import { hallOfProcess } from '#app/server/hall.ts';
import { jsonResponse, problem } from '#app/server/responses.ts';
import { refuse } from '#lib/result/result.ts';

const schema = z.strictObject({ open: z.literal(true) });
const unread = () => refuse('malformed', 'Reload the page and open the hall again.');

/** Opens the lines of this server to the hall, with a certificate that is made where there is none. */
export const POST = saidRoute({ schema, unread, stations: ['office'] }, async () => {
  const why = (await hallOfProcess()?.open()) ?? 'This server cannot open the hall: start it with npm start.';
  return why === '' ? jsonResponse({ ok: true }) : problem(refuse('not_allowed', why));
});
