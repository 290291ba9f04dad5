import { theBook } from '#app/request/book.ts';
import { readJson } from '#app/server/body.ts';
import { connectionOf } from '#app/server/connection.ts';
import { jsonResponse, problem } from '#app/server/responses.ts';
import { withSignIns } from '#app/server/session.ts';
import { pair, pairInput } from '#db/follow/laptops.ts';
import { refuse } from '#lib/result/result.ts';

/** Pairs a second laptop that shows the one-time code of the office, and gives it a key of its own. */
export async function POST(request: Request): Promise<Response> {
  const read = await readJson(await theBook(), request);
  if (!read.ok) return problem(read);
  const { secure, fromMachine, client } = connectionOf(request.headers);
  if (!(secure || fromMachine)) {
    return problem(refuse('open_line', 'A second laptop is paired at the address that begins with https.'));
  }
  const said = pairInput.safeParse(read.value);
  if (!said.success) return problem(refuse('missing', 'Say the code of Office, Doors.', 'code'));
  const key = await withSignIns(await theBook(), (store) => pair(store, { ...said.data, client }, Date.now()));
  return key.ok ? jsonResponse({ ok: true, key: key.value }) : problem(key);
}
