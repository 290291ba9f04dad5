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
  const kept = book.prepared(`kept: ${name}`, (): Kept<T> => ({ line: null, value: undefined }));
  const line = newestLine(book);
  if (kept.line !== line) {
    kept.value = make();
    kept.line = line;
  }
  return kept.value as T;
}
