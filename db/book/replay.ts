/**
 * Gives every line of a log again, in order, to an empty book in memory. Commands are functions of the book, their
 * input, and the time, worker and station of the line: so the new book must come out the same, and where it does not,
 * one of the two lies.
 */

import type { LineDifference } from '#db/verify/report.ts';
import type { Json, Station } from './command.ts';
import { submitUntyped } from './door.ts';
import { canonical, hashAt, type LogRow } from './log.ts';
import { type Book, openBookInMemory } from './open.ts';
import { isRedacted, NO_REDACTIONS, type Redactions } from './redact.ts';

export interface Replayed {
  /** The book that the log makes, to be closed by the caller. */
  readonly book: Book;
  /** How many lines gave the same again. */
  readonly lines: number;
  /** The first line that did not, where the replay stopped; null where all did. */
  readonly difference: LineDifference | null;
}

/**
 * Replays the lines one at a time, so that a long log is never held in memory. Throws where reading them does.
 * Lines from which contact data was removed keep the hash they were sealed with; `redactions` says which they are.
 */
export function replayLog(lines: Iterable<LogRow>, redactions: Redactions = NO_REDACTIONS): Replayed {
  const book = openBookInMemory();
  // Nothing is ever rolled back here: the first refusal ends the replay, and then this book is of no use any more.
  book.sqlite.pragma('journal_mode = OFF');
  // Nor does anything stay behind in memory that would have to be overwritten.
  book.sqlite.pragma('secure_delete = OFF');
  let done = 0;
  try {
    for (const row of lines) {
      const message = giveAgain(book, row, redactions) ?? sealOf(hashAt(book, row.seq), row);
      if (message !== null) return { book, lines: done, difference: { kind: 'line', line: row.seq, message } };
      done += 1;
    }
    return { book, lines: done, difference: null };
  } catch (fault) {
    book.close();
    throw fault;
  }
}

/** Gives one line to the book again; says what came out differently, or null. */
export function giveAgain(book: Book, row: LogRow, redactions: Redactions): string | null {
  const input = parsed(row.input);
  if (input === undefined) return `Line ${row.seq}: its input is not JSON.`;
  const { at, worker, station, command, key } = row;
  const seal = isRedacted(row, redactions) ? { sealedAs: row.hash } : {};
  const answer = submitUntyped(book, { command, input, worker, station: station as Station, at, key, ...seal });
  if (!answer.ok) return `Line ${row.seq}: ${command} is refused when it is given again. ${answer.message}`;
  if (answer.line !== row.seq) return `Line ${row.seq}: given again, it becomes line ${answer.line}.`;
  return canonical(answer.value) === row.result ? null : `Line ${row.seq}: ${command} gives another result.`;
}

function sealOf(hash: string | undefined, row: LogRow): string | null {
  return hash === row.hash ? null : `Line ${row.seq}: given again, it is sealed with another hash.`;
}

function parsed(text: string): Json | undefined {
  try {
    return JSON.parse(text) as Json;
  } catch {
    return undefined;
  }
}
