/**
 * The one door: every change to the book comes through {@link submit}.
 * One IMMEDIATE transaction holds the command's rows and its log line, so that either both are there or neither.
 */
import type * as z from 'zod';
import { type CommandName, findCommand, type InputOf, type ValueOf } from '#db/commands.ts';
import { workerByName } from '#db/worker/queries.ts';
import { type Accepted, accept, allOf, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import type { CommandContext, Json, Station } from './command.ts';
import { inputText, plainWords } from './inputs.ts';
import { appendLine, type LogRow, lineWithKey, logHead } from './log.ts';
import { type Book, statement } from './open.ts';

/** Who gives a command, where and when. `key` is drawn by the sender: the same key is the same act, however often sent. */
interface Sender {
  readonly worker: string;
  readonly station: Station;
  /** ISO 8601, UTC. */
  readonly at: string;
  readonly key: string;
  /** Of a line given again that was redacted meanwhile: the hash it was sealed with. Nobody else says this. */
  readonly sealedAs?: string;
}

/** A command as it arrives from outside, or out of the log. */
export interface Envelope extends Sender {
  readonly command: string;
  readonly input: unknown;
}

/** A command as our own code gives it: the compiler checks its name and its input. */
export interface EnvelopeOf<N extends CommandName> extends Sender {
  readonly command: N;
  readonly input: InputOf<N>;
}

interface Done<V = Json> extends Accepted<V> {
  /** The log line of the act; the same again when the same key comes back. */
  readonly line: number;
  readonly repeated: boolean;
}

export type Answer<V = Json> = Done<V> | Refusal;

/** Carries a refusal out of the transaction, so that what the command wrote before it is rolled back. */
class RolledBack extends Error {
  readonly refusal: Refusal;
  constructor(refusal: Refusal) {
    super(refusal.message);
    this.refusal = refusal;
  }
}

/**
 * Gives one command to the book.
 * @returns the command's value with its log line, or a refusal with the book unchanged.
 * @throws where the disk or the database fails: then the outcome is unknown, and the sender asks again with the same key.
 */
export function submit<N extends CommandName>(book: Book, envelope: EnvelopeOf<N>): Answer<ValueOf<N>> {
  // The command of this name is found while the program runs; its type is that of the list it is found in.
  return submitUntyped(book, envelope) as Answer<ValueOf<N>>;
}

/** The same for what our own code did not write: a request, a line of the log. The schema judges it all the same. */
export function submitUntyped(book: Book, envelope: Envelope): Answer {
  const command = findCommand(envelope.command);
  if (!command) return refuse('unknown', `There is no command “${envelope.command}”. Reload the page and try again.`);
  if (!command.stations.includes(envelope.station)) {
    return refuse(
      'not_allowed',
      `The ${envelope.station} station may not do this. Ask at: ${command.stations.join(', ')}.`,
    );
  }
  const parsed = command.input.safeParse(envelope.input, { error: plainWords });
  if (!parsed.success) return refusalOf(parsed.error);
  const text = inputText(envelope.input);
  if (!text.ok) return text;
  const run = (context: CommandContext) => command.run(context, parsed.data);
  return inOneTransaction(book, () => act(book, envelope, text.value, run));
}

/**
 * What a command would do now, with nothing of it kept: for showing what is wrong before anything is given. Whether
 * the caller may give it, the door says when it is given. `look` sees the book as the command would leave it.
 */
export function rehearse<N extends CommandName, T>(
  book: Book,
  { input, ...envelope }: Omit<EnvelopeOf<N>, 'key'>,
  look: (value: ValueOf<N>) => T,
): Result<T> {
  const command = findCommand(envelope.command);
  if (!command) return refuse('unknown', `There is no command “${envelope.command}”. Reload the page and try again.`);
  const parsed = command.input.safeParse(input, { error: plainWords });
  if (!parsed.success) return refusalOf(parsed.error);
  let seen: Accepted<T> | undefined;
  const answer = inOneTransaction(book, () => {
    const done = command.run({ ...envelope, book, line: logHead(book).seq + 1 }, parsed.data);
    if (done.ok) seen = accept(look(done.value as ValueOf<N>));
    throw new RolledBack(done.ok ? refuse('not_allowed', 'This was a rehearsal: nothing is kept.') : done);
  });
  if (seen) return seen;
  if (answer.ok) throw new Error('A rehearsal keeps nothing.');
  return answer;
}

/**
 * A worker of the book gives commands at their own stations only. Other names are of those who sit at the machine
 * itself: the command line, a folder read in. Over the wire nobody has such a name once there are workers.
 */
function notTheirStation(book: Book, { worker: name, station }: Envelope): Refusal | undefined {
  const worker = workerByName(book, name);
  if (!worker) return undefined;
  if (worker.hasLeft) return refuse('not_allowed', `${worker.name} has left and gives no more commands.`);
  if (worker.stations.includes(station)) return undefined;
  return refuse('not_allowed', `${worker.name} does not work at the ${station} station. Ask the office for it.`);
}

const transaction = statement(({ sqlite }) => sqlite.transaction((inside: () => Answer) => inside()));

function inOneTransaction(book: Book, work: () => Answer): Answer {
  try {
    return transaction(book).immediate(work);
  } catch (thrown) {
    if (thrown instanceof RolledBack) return thrown.refusal;
    throw thrown;
  }
}

/** `input` is the RFC 8785 text of the envelope's, as the log will hold it. */
function act(book: Book, envelope: Envelope, input: string, run: (context: CommandContext) => Result<Json>): Answer {
  const { command, key, worker, station, at } = envelope;
  const before = lineWithKey(book, key);
  if (before) return answerAgain(before, command, input);
  const stranger = notTheirStation(book, envelope);
  if (stranger) return stranger;
  const head = logHead(book);
  const result = run({ book, at, worker, station, line: head.seq + 1 });
  if (!result.ok) throw new RolledBack(result);
  const line = { at, worker, station, command, key, input, result: result.value, sealedAs: envelope.sealedAs };
  return { ok: true, value: result.value, line: appendLine(book, head, line).seq, repeated: false };
}

function answerAgain(before: LogRow, command: string, input: string): Answer {
  if (before.command !== command || before.input !== input) {
    const message = 'This entry was already saved with other contents. Reload the page and enter it anew.';
    return refuse('conflict', message, 'key');
  }
  return { ok: true, value: JSON.parse(before.result) as Json, line: before.seq, repeated: true };
}

/** The first thing wrong, and all the others behind it, each with the field it is about. */
export function refusalOf(error: z.ZodError): Refusal {
  const unread = refuse('malformed', 'The entry could not be read. Check what was typed.');
  return allOf(error.issues.map(refusalOfIssue)) ?? unread;
}

function refusalOfIssue(issue: z.core.$ZodIssue): Refusal {
  const field = issue.code === 'unrecognized_keys' ? issue.keys.join(', ') : issue.path.join('.');
  return refuse('malformed', issue.message, field);
}
