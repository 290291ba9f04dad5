import 'server-only';
import { copySoon } from '#app/backups/schedule.ts';
import { STATIONS } from '#db/book/command.ts';
import { type Answer, type Envelope, type EnvelopeOf, submitUntyped } from '#db/book/door.ts';
import type { Book } from '#db/book/open.ts';
import { type Trouble, troubleOfWriting } from '#db/book/trouble.ts';
import type { CommandName, ValueOf } from '#db/commands.ts';
import { epochOf } from '#db/follow/epoch.ts';
import { decidePassphrase } from '#db/sign-in/credentials.ts';
import { dropOldHashes, storePassphrase } from '#db/sign-in/passphrases.ts';
import { dropEnded } from '#db/sign-in/sessions.ts';
import { networkSaid } from '#db/worker/queries.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { readJson } from './body.ts';
import { untilFollowed } from './followers.ts';
import { lookAtFile } from './look-at-file.ts';
import { problem, troubleProblem } from './responses.ts';
import { headCookie, lossFor } from './seen-head.ts';
import { type Caller, callerOf, nameAsked, withSignIns, withSignInsNow } from './session.ts';
import { bookId, bookNow, noteLate, ring, serverState, troubleNow } from './state.ts';

/** One command over HTTP, with its key in `Idempotency-Key` and the station it comes from in `X-Station`. */
export async function answerEntry(command: string, request: Request): Promise<Response> {
  const { headers } = request;
  const key = headers.get('idempotency-key') ?? '';
  if (!/^[\w-]{8,80}$/.test(key)) return malformed('Reload the page: this entry came without its key.');
  const station = STATIONS.find((one) => one === headers.get('x-station'));
  if (!station) return malformed('Reload the page: this entry came from no known station.');
  const book = bookNow();
  if (!book) return troubleProblem(troubleNow());
  const caller = callerOf(book, headers, [station]);
  if (!caller.ok) return problem(caller);
  const loss = lossFor(book, headers);
  if (loss) return troubleProblem(loss);
  const answer =
    refuseAnother(book, headers, caller.value) ??
    (await answerOf(book, { command, request, station, key }, caller.value));
  // The browser learns who is signed in: another tab may have changed that.
  if (caller.value.id !== undefined) answer.headers.set('x-peltry-worker', encodeURIComponent(caller.value.worker));
  const cookie = answer.ok && headCookie(book);
  if (cookie) answer.headers.append('set-cookie', cookie);
  return answer;
}

/** An entry that waited in a browser says who typed it and for which book: it goes in under no other name, and in no other book. */
function refuseAnother(book: Book, headers: Headers, { worker, id }: Caller): Response | undefined {
  const typedFor = pageOf(headers);
  if (typedFor.book && bookId() && typedFor.book !== bookId()) {
    return problem(refuse('conflict', 'This was typed for another book: it is not sent to this one.'));
  }
  // Anybody may write a number: without a sealed word of the leading laptop it stops this one entry and nothing else.
  if (typedFor.epoch > epochOf(book)) return troubleProblem(TYPED_LATER);
  const typedBy = nameAsked(headers);
  if (id === undefined || !typedBy || typedBy === worker) return undefined;
  return problem(
    refuse('signed_out', `${typedBy} typed this, and ${worker} is signed in here: ${typedBy} has to sign in.`),
  );
}

const TYPED_LATER: Trouble = {
  kind: 'deposed',
  title: 'This was typed at a laptop that has taken over this book since: it waits here.',
  happened: '',
  safe: '',
  toDo: 'Go on at the laptop that leads.',
};

/** Which book the page was of on which something was typed, and in which epoch; 0 where the browser does not say. */
function pageOf(headers: Headers): { readonly book: string; readonly epoch: number } {
  const said = /^([0-9a-f]{20})(?::(\d{1,7}))?/.exec(headers.get('x-book') ?? '');
  return { book: said?.[1] ?? '', epoch: Number.parseInt(said?.[2] ?? '0', 10) };
}

interface Asked extends Pick<Envelope, 'command' | 'station' | 'key'> {
  readonly request: Request;
}

async function answerOf(book: Book, { command, request, station, key }: Asked, { worker }: Caller): Promise<Response> {
  if (command === TAKE_OVER)
    return problem(refuse('not_allowed', 'A laptop takes over by itself: type take-over there.'));
  const read = await readJson(book, request);
  if (!read.ok) return problem(read);
  const input = await withMark(book, { command, station, input: read.value, key });
  if (!input.ok) return problem(input);
  const at = new Date().toISOString();
  const answer = giveUntyped(book, { command, input: input.value, worker, station, at, key });
  if ('stopped' in answer) return troubleProblem(answer.stopped);
  if (!answer.ok) return problem(answer);
  const followed = !networkSaid(book).waitsForSecond || (await untilFollowed(answer.line));
  const { epoch } = pageOf(request.headers);
  if (!answer.repeated && epoch > 0 && epoch < epochOf(book)) noteLate({ line: answer.line, worker, station });
  return Response.json(answer, followed ? {} : { headers: { 'x-peltry-second': 'silent' } });
}

function malformed(words: string): Response {
  return problem(refuse('malformed', words), 400);
}

const TAKE_OVER: CommandName = 'book.takeover';
const WITH_PASSPHRASE: readonly string[] = ['worker.add', 'worker.passphrase'] satisfies CommandName[];
const OWN_PASSPHRASE: CommandName = 'worker.renew';

type Unread = Pick<Envelope, 'command' | 'station' | 'input' | 'key'>;

/** Puts a mark in the place of a passphrase, before the door: neither a command nor the log sees the words or their hash. */
async function withMark(book: Book, { command, station, input, key }: Unread): Promise<Result<unknown>> {
  // A device left lying about must not be enough: the old passphrase is asked for elsewhere, and nobody comes past it.
  if (command === OWN_PASSPHRASE) {
    return refuse('missing', 'Change your own passphrase under your own name, with the old one.', 'old');
  }
  // Hashing is dear: it is done for the office only, and the door tells the others.
  if (!WITH_PASSPHRASE.includes(command) || station !== 'office') return accept(input);
  if (typeof input !== 'object' || input === null || !('passphrase' in input) || 'passphraseMark' in input) {
    return refuse('missing', 'Enter a passphrase.', 'passphrase');
  }
  const { passphrase, ...rest } = input;
  if (typeof passphrase !== 'string') return refuse('malformed', 'Enter the passphrase as text.', 'passphrase');
  const decided = decidePassphrase(passphrase);
  if (!decided.ok) return decided;
  const said = { words: passphrase, key, now: Date.now() };
  const mark = await withSignIns(book, (store) => storePassphrase({ book, store }, said));
  return mark.ok ? accept({ ...rest, passphraseMark: mark.value }) : mark;
}

/** What the office says of a worker by which devices are signed out. Whoever renews their own stays on one of them. */
const ENDS_SIGN_INS: ReadonlySet<string> = new Set<CommandName>(['worker.amend', 'worker.passphrase']);

const BACKED_UP_AFTER: CommandName = 'sale.stage';

/** The answer to an entry that was not taken because nothing is written: it stays in the browser and comes again. */
export interface WritingStopped {
  readonly stopped: Trouble;
}

/**
 * Gives a command to the book and rings the bell when it was accepted. Nothing is taken once the disk has failed, and
 * from then on until a person has said that it is mended: after a full disk a smaller entry might go in where a larger
 * one did not, and nobody could say what is missing.
 */
export function give<N extends CommandName>(book: Book, envelope: EnvelopeOf<N>): Answer<ValueOf<N>> | WritingStopped {
  return giveUntyped(book, envelope) as Answer<ValueOf<N>> | WritingStopped;
}

/** The same for a request, of which only the door knows what it holds. */
function giveUntyped(book: Book, envelope: Envelope): Answer | WritingStopped {
  const here = serverState();
  lookAtFile();
  if (here.trouble) return { stopped: here.trouble };
  let answer: Answer;
  try {
    answer = submitUntyped(book, envelope);
  } catch (fault) {
    const trouble = troubleOfWriting(fault);
    if (!trouble) throw fault;
    here.trouble = trouble;
    ring();
    return { stopped: trouble };
  }
  if (!answer.ok) return answer;
  // Looked at again once the entry is written: one that went into a file which is gone must not count as saved.
  const moved = lookAtFile();
  if (moved) return { stopped: moved };
  if (ENDS_SIGN_INS.has(envelope.command)) {
    withSignInsNow(book, (store) => {
      dropEnded({ book, store });
      dropOldHashes({ book, store }, Date.now());
    });
  }
  ring();
  if (envelope.command === BACKED_UP_AFTER) copySoon();
  return answer;
}
