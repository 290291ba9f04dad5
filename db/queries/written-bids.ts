/** The written bids of a sale that still count, and what they make of each open lot. */
import { and, asc, eq, sql } from 'drizzle-orm';
import { standingBids } from '#lib/decide-retract.ts';
import type { Bid } from '#lib/facts.ts';
import { cents } from '#lib/money.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { bid, buyer, lot } from '../schema/index.ts';
import { statement } from '../statement.ts';

export interface WrittenBid extends Bid {
  readonly bidId: number;
  readonly lotId: number;
  readonly buyerId: number;
}

const findWritten = statement(({ db }) =>
  db
    .select({ row: bid, buyerNo: buyer.buyerNo, lotNumber: lot.lotNumber, lotLetter: lot.lotLetter })
    .from(bid)
    .innerJoin(lot, eq(lot.id, bid.lotId))
    .innerJoin(buyer, eq(buyer.id, bid.buyerId))
    .where(and(eq(lot.saleId, sql.placeholder('saleId')), eq(bid.kind, 'written')))
    .orderBy(asc(bid.id))
    .prepare(),
);

/** In the order taken down. A bid taken back revives none that its buyer wrote before it. */
export function writtenBids(book: Book, saleId: number): WrittenBid[] {
  const rows = findWritten(book).all({ saleId });
  const standing = new Set(
    [...grouped(rows).values()].flatMap((of) => standingBids(of.map(({ row }) => row)).map(({ id }) => id)),
  );
  return rows
    .filter(({ row }) => standing.has(row.id))
    .map(({ row, buyerNo, ...number }) => ({
      ...{ bidId: row.id, lotId: row.lotId, buyerId: row.buyerId, buyerNo, lotNo: lotNoOf(number) },
      ...{ priceCents: cents(row.priceCents), receivedAt: row.receivedAt },
    }));
}

function grouped<T extends { readonly row: { readonly lotId: number } }>(rows: readonly T[]): Map<number, T[]> {
  const byLot = new Map<number, T[]>();
  for (const one of rows) {
    const of = byLot.get(one.row.lotId);
    if (of) of.push(one);
    else byLot.set(one.row.lotId, [one]);
  }
  return byLot;
}
