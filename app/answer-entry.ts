import 'server-only';
import { STATIONS, type Station } from '#db/command.ts';
import { refuse } from '#lib/result.ts';
import { withHashedPassphrase } from './api/commands/passphrase.ts';
import { giveUntyped } from './give.ts';
import { bookNow, troubleNow } from './house.ts';
import { problem, troubleProblem } from './problem.ts';
import { callerOf } from './server/session.ts';
import { readJson } from './wire.ts';

/** One command over HTTP, with its key in `Idempotency-Key` and the station it comes from in `X-Station`. */
export async function answerEntry(command: string, request: Request): Promise<Response> {
  const { headers } = request;
  const key = headers.get('idempotency-key') ?? '';
  if (!/^[\w-]{8,80}$/.test(key)) return malformed('Reload the page: this entry came without its key.');
  const station = stationOf(headers.get('x-station'));
  if (!station) return malformed('Reload the page: this entry came from no known station.');
  const book = bookNow();
  if (!book) return troubleProblem(troubleNow());
  const caller = callerOf(book, headers, [station]);
  if (!caller.ok) return problem(caller);
  const read = await readJson(book, request);
  if (!read.ok) return problem(read);
  const input = await withHashedPassphrase({ command, station, input: read.value, key });
  if (!input.ok) return problem(input);
  const { worker } = caller.value;
  const at = new Date().toISOString();
  const answer = giveUntyped(book, { command, input: input.value, worker, station, at, key });
  if ('stopped' in answer) return troubleProblem(answer.stopped);
  if (!answer.ok) return problem(answer);
  return Response.json(answer);
}

function malformed(words: string): Response {
  return problem(refuse('malformed', words), 400);
}

function stationOf(name: string | null): Station | undefined {
  return STATIONS.find((station) => station === name);
}
