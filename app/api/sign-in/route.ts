import * as z from 'zod';
import { theBook } from '#app/request/book.ts';
import { readJson } from '#app/server/body.ts';
import { connectionOf, cookieOf, tokenIn } from '#app/server/connection.ts';
import { noteClock } from '#app/server/guard/turned-away.ts';
import { problem } from '#app/server/responses.ts';
import { withSignIns } from '#app/server/session.ts';
import { endSession } from '#db/sign-in/sessions.ts';
import { type Place, signIn, signInWithCode } from '#db/sign-in/sign-in.ts';
import { refuse } from '#lib/result/result.ts';

/** What the clock of the device says, in milliseconds since 1970: one that is wrong is told to the office. */
const clock = z.int().optional();
const entered = z.union([
  z.strictObject({ name: z.string().min(1).max(80), passphrase: z.string().min(1).max(1000), clock }),
  z.strictObject({ code: z.string().min(1).max(40), clock }),
]);

/** Signs a device in by name and passphrase, or by a one-time code; answers with the stations and sets the cookie. */
export async function POST(request: Request): Promise<Response> {
  const book = await theBook();
  const read = await readJson(book, request);
  if (!read.ok) return problem(read);
  const typed = entered.safeParse(read.value);
  if (!typed.success) return problem(refuse('missing', 'Enter a name and a passphrase, or a code.', 'name'));
  const device = request.headers.get('user-agent') ?? '';
  const { client } = connectionOf(request.headers);
  const said = typed.data;
  const answer = await withSignIns(book, (store) => {
    const place: Place = { book, store, now: Date.now(), device, client };
    return 'code' in said ? signInWithCode(place, said.code) : signIn(place, said.name, said.passphrase);
  });
  if (!answer.ok) return problem(answer);
  const { worker, token } = answer.value;
  if (said.clock !== undefined) noteClock(worker.name, said.clock);
  const before = tokenIn(request.headers);
  if (before !== undefined) await withSignIns(book, (store) => endSession(store, before));
  const headers = { 'set-cookie': cookieOf(token, connectionOf(request.headers).secure), 'cache-control': 'no-store' };
  return Response.json({ ok: true, name: worker.name, stations: worker.stations }, { headers });
}
