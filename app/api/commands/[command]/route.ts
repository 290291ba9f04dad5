import { bookOrNone, give, troubleNow, WritingStopped } from '#app/book.ts';
import { callerOf } from '#app/caller.ts';
import { problem, troubleProblem } from '#app/problem.ts';
import { STATIONS, type Station } from '#db/command.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

const LARGEST_BODY = 1_000_000;

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
  const input = await readInput(request);
  if (!input.ok) return problem(input);
  const { command } = await params;
  const { worker } = await callerOf();
  const at = new Date().toISOString();
  const book = await bookOrNone();
  if (!book) return troubleProblem(troubleNow());
  try {
    const answer = give(book, { command, input: input.value, worker, station, at, key });
    return answer.ok ? Response.json(answer) : problem(answer);
  } catch (fault) {
    if (fault instanceof WritingStopped) return troubleProblem(fault.trouble);
    throw fault;
  }
}

function stationOf(name: string | null): Station | undefined {
  return STATIONS.find((station) => station === name);
}

async function readInput(request: Request): Promise<Result<unknown>> {
  if (!request.headers.get('content-type')?.startsWith('application/json')) {
    return refuse('malformed', 'Send the entry as application/json.');
  }
  const text = await request.text();
  if (text.length > LARGEST_BODY) return refuse('too_large', 'This is too much for one entry: enter it in parts.');
  try {
    return accept(JSON.parse(text));
  } catch {
    return refuse('malformed', 'The entry could not be read as JSON. Reload the page and enter it again.');
  }
}
