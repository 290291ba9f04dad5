import type { Book } from '../open.ts';

/** The highest row id of any lot in the book, 0 before the first. */
export function newestLotId(book: Book): number {
  return newestOf(book, 'lot');
}

/** The same of the outcomes, which are only ever added. */
export function newestOutcomeId(book: Book): number {
  return newestOf(book, 'outcome');
}

function newestOf(book: Book, table: 'lot' | 'outcome'): number {
  const newest = book.prepared(`newest ${table} id`, () =>
    book.sqlite.prepare<[], number | null>(`SELECT max(id) FROM ${table}`).pluck(),
  );
  return newest.get() ?? 0;
}
