/**
 * A statement of the book, built once for each open book and kept as long as the book is. The function that this gives
 * is its own key: two statements can never be taken for each other, and nothing is built before a book is open.
 */
import type { Book } from './open.ts';

/** For example `const saleById = statement(({ db }) => db.select().from(sale).where(…).prepare())`. */
export function statement<S>(build: (book: Book) => S): (book: Book) => S {
  const built = new WeakMap<Book, { readonly statement: S }>();
  return (book) => {
    let found = built.get(book);
    if (!found) {
      found = { statement: build(book) };
      built.set(book, found);
    }
    return found.statement;
  };
}
