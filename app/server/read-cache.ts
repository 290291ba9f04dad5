import type { SaleRow } from '#db/book/find.ts';
import { newestLine } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';

/**
 * A read whose values are kept for one log entry: as soon as the log has grown, all of them are thrown away. For what
 * many viewers ask at the same moment, such as two hundred boards. The function that this gives is its own key, so that
 * two reads can never be taken for each other; where the framework loads a module twice, each copy keeps its own.
 * `keyOf` says which values of the second argument are the same question.
 * Throws inside a transaction, where the book may hold what is never logged.
 */
export function cachedRead<A, T>(
  read: (book: Book, asked: A) => T,
  keyOf: (asked: A) => string | number,
): (book: Book, asked: A) => T {
  const cached = new WeakMap<Book, { readonly line: number; readonly values: Map<string | number, T> }>();
  return (book, asked) => {
    if (book.sqlite.inTransaction) throw new Error('A cached read was asked for inside a transaction.');
    const line = newestLine(book);
    const known = cached.get(book);
    const now = known?.line === line ? known : { line, values: new Map<string | number, T>() };
    if (now !== known) cached.set(book, now);
    const key = keyOf(asked);
    const value = now.values.get(key);
    if (value !== undefined || now.values.has(key)) return value as T;
    const made = read(book, asked);
    now.values.set(key, made);
    return made;
  };
}

/** For reads of a whole sale. */
export const bySale = ({ id }: Pick<SaleRow, 'id'>): number => id;
