/** Which laptop leads a book: how often it was taken over, and the newest time. */
import { desc, max } from 'drizzle-orm';
import { type Book, query } from '#db/book/open.ts';
import { takeover } from '#db/schema/index.ts';

export type Takeover = typeof takeover.$inferSelect;

/** The epoch of a book that nobody has taken over yet. */
export const FIRST_EPOCH = 1;

/** For a person: which epoch it is, and what that means. */
export function epochInWords(epoch: number): string {
  const times = epoch - FIRST_EPOCH;
  const often = times === 1 ? 'once' : times === 2 ? 'twice' : `${times} times`;
  return `epoch ${epoch}: the book has changed its laptop ${often}, and the highest epoch leads`;
}

const highest = query(({ db }) => db.select({ epoch: max(takeover.epoch) }).from(takeover));

export function epochOf(book: Book): number {
  return highest(book).get()?.epoch ?? FIRST_EPOCH;
}

const takeovers = query(({ db }) => db.select().from(takeover).orderBy(desc(takeover.epoch)));

/** Every time that a laptop began to lead, the newest first. */
export function takeoversOf(book: Book): Takeover[] {
  return takeovers(book).all();
}
