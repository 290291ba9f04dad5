import { bookOrNone, give, troubleNow } from '#app/book.ts';
import { callerAt } from '#app/caller.ts';
import { problem, troubleProblem } from '#app/problem.ts';
import { readJson } from '#app/wire.ts';
import { STATIONS, type Station } from '#db/command.ts';
import { refuse } from '#lib/result.ts';
import { withHashedPassphrase } from '../passphrase.ts';

interface Params {
  readonly params: Promise<{ command: string }>;
}

/** The door over HTTP: one command, with its key in `Idempotency-Key` and the station it comes from in `X-Station`. */
export async function POST(request: Request, { params }: Params): Promise<Response> {
  const key = request.headers.get('idempotency-key') ?? '';
  if (!/^[\w-]{8,80}$/.test(key))
    return problem(refuse('malformed', 'Reload the page: this entry came without its key.'), 400);
  const station = stationOf(request.headers.get('x-station'));
  if (!station) return problem(refuse('malformed', 'Reload the page: this entry came from no known station.'), 400);
  const book = await bookOrNone();
  if (!book) return troubleProblem(troubleNow());
  const caller = await callerAt([station]);
  if (!caller.ok) return problem(caller);
  const read = await readJson(request);
  if (!read.ok) return problem(read);
  const { command } = await params;
  const input = await withHashedPassphrase({ command, station, input: read.value, key });
  if (!input.ok) return problem(input);
  const { worker } = caller.value;
  const at = new Date().toISOString();
  const answer = give(book, { command, input: input.value, worker, station, at, key });
  if ('stopped' in answer) return troubleProblem(answer.stopped);
  return answer.ok ? Response.json(answer) : problem(answer);
}

function stationOf(name: string | null): Station | undefined {
  return STATIONS.find((station) => station === name);
}
