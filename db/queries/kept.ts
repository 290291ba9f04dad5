/**
 * What a screen reads is kept until the log moves. Every change to the book appends a line, and no line is ever taken
 * away, so that an open book whose log ends in the same line is the same book. For screens only: a command reads within
 * its own changes, before its line.
 */
import { newestLine } from '../log.ts';
import type { Book } from '../open.ts';

interface Kept<T> {
  line: number | null;
  value: T | undefined;
}

/** The value as it was made for the newest line, made anew where the log has grown. Nobody may change it. */
export function keptUntilLine<T>(book: Book, name: string, make: () => T): T {
  return keptAlong(book, name, { make, go: make });
}

interface Along<T> {
  readonly make: () => T;
  /** The value with what lots that were called since have changed in it: nothing else has happened. */
  readonly go: (before: T) => T;
}

/**
 * The same, for what need not be made anew while the auctioneer calls one lot after the other. Where any other command
 * was given meanwhile, it is.
 */
export function keptAlong<T>(book: Book, name: string, { make, go }: Along<T>): T {
  const kept = book.prepared(`kept: ${name}`, (): Kept<T> => ({ line: null, value: undefined }));
  const line = newestLine(book);
  if (kept.line === line) return kept.value as T;
  const value = kept.line !== null && onlyCalled(book, kept.line) ? go(kept.value as T) : make();
  kept.line = line;
  kept.value = value;
  return value;
}

/** The plainest outcome: it adds one row, to a lot of which nothing stood. */
function onlyCalled(book: Book, seq: number): boolean {
  const other = book.prepared('a line beside the calling', () =>
    book.sqlite.prepare<[number], 1>("SELECT 1 FROM log WHERE seq > ? AND command <> 'outcome.record' LIMIT 1").pluck(),
  );
  return other.get(seq) === undefined;
}

/** The newest outcome of the book: they are only ever added. */
export function newestOutcomeId(book: Book): number {
  const newest = book.prepared('newest outcome id', () =>
    book.sqlite.prepare<[], number | null>('SELECT max(id) FROM outcome').pluck(),
  );
  return newest.get() ?? 0;
}
