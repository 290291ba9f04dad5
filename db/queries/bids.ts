import { asc, eq, sql } from 'drizzle-orm';
import type { Book } from '../open.ts';
import { bid } from '../schema/index.ts';

export type BidOfLot = typeof bid.$inferSelect;

export function bidById(book: Book, id: number): BidOfLot | undefined {
  const find = book.prepared('find bid', (db) =>
    db
      .select()
      .from(bid)
      .where(eq(bid.id, sql.placeholder('id')))
      .prepare(),
  );
  return find.get({ id });
}

/** Every bid on a lot and every taking back of one, in the order taken down. */
export function bidsOfLot(book: Book, lotId: number): BidOfLot[] {
  const find = book.prepared('bids of lot', (db) =>
    db
      .select()
      .from(bid)
      .where(eq(bid.lotId, sql.placeholder('lotId')))
      .orderBy(asc(bid.id))
      .prepare(),
  );
  return find.all({ lotId });
}
