/**
 * A statement of the book, built once for each open book and kept as long as the book is. The function that this gives
 * is its own key: two statements can never be taken for each other, and nothing is built before a book is open.
 */
import type { Book } from './open.ts';

/**
 * For example `const saleById = statement(({ db }) => db.select().from(sale).where(…).prepare())`.
 * Of another open database than the book it is written `statement(({ db }: Store) => …)`.
 */
export function statement<S, D extends object = Book>(build: (database: D) => S): (database: D) => S {
  const built = new WeakMap<D, { readonly statement: S }>();
  return (database) => {
    let found = built.get(database);
    if (!found) {
      found = { statement: build(database) };
      built.set(database, found);
    }
    return found.statement;
  };
}
