import 'server-only';
import { STATIONS, type Station } from '#db/command.ts';
import { refuse } from '#lib/result.ts';
import { withHashedPassphrase } from './api/commands/passphrase.ts';
import { bookNow, troubleNow } from './book.ts';
import { callerOf } from './caller.ts';
import { giveUntyped } from './give.ts';
import { problemReply, troubleReply } from './problem.ts';
import type { Reply } from './reply.ts';
import { jsonOf } from './wire.ts';
import type { Letter } from './wire-letter.ts';

/** The door over HTTP: one command, with its key in `Idempotency-Key` and the station it comes from in `X-Station`. */
export async function answerEntry(command: string, entry: Letter): Promise<Reply> {
  const key = entry.headers.get('idempotency-key') ?? '';
  if (!/^[\w-]{8,80}$/.test(key)) return malformed('Reload the page: this entry came without its key.');
  const station = stationOf(entry.headers.get('x-station'));
  if (!station) return malformed('Reload the page: this entry came from no known station.');
  const book = bookNow();
  if (!book) return troubleReply(troubleNow());
  const caller = callerOf(book, entry.headers, [station]);
  if (!caller.ok) return problemReply(caller);
  const read = await jsonOf(book, entry);
  if (!read.ok) return problemReply(read);
  const input = await withHashedPassphrase({ command, station, input: read.value, key });
  if (!input.ok) return problemReply(input);
  const { worker } = caller.value;
  const at = new Date().toISOString();
  const answer = giveUntyped(book, { command, input: input.value, worker, station, at, key });
  if ('stopped' in answer) return troubleReply(answer.stopped);
  if (!answer.ok) return problemReply(answer);
  return { status: 200, headers: { 'content-type': 'application/json' }, text: JSON.stringify(answer) };
}

function malformed(words: string): Reply {
  return problemReply(refuse('malformed', words), 400);
}

function stationOf(name: string | null): Station | undefined {
  return STATIONS.find((station) => station === name);
}
