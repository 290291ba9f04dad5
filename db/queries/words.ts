/** What stands, as words for a refusal: `sold to buyer 10 at 12.50`. */
import { eq, sql } from 'drizzle-orm';
import { cents, showMoney } from '#lib/money.ts';
import type { Book } from '../open.ts';
import { buyer } from '../schema/index.ts';
import type { OutcomeRow } from './outcome.ts';

export function outcomeInWords(book: Book, outcome: OutcomeRow): string {
  if (outcome.kind !== 'sold' || outcome.priceCents === null || outcome.buyerId === null) return outcome.kind;
  const find = book.prepared('buyer number', (db) =>
    db
      .select({ buyerNo: buyer.buyerNo })
      .from(buyer)
      .where(eq(buyer.id, sql.placeholder('id')))
      .prepare(),
  );
  const buyerNo = find.get({ id: outcome.buyerId })?.buyerNo ?? '?';
  return `sold to buyer ${buyerNo} at ${showMoney(cents(outcome.priceCents))}`;
}
