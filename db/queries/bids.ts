/** The bids on a lot, and the left bids of a sale. */
import { and, asc, desc, eq, sql } from 'drizzle-orm';
import { cents, showMoney } from '#lib/money.ts';
import { newestLine } from '../log.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { bid, buyer, liveBid, lotNow } from '../schema/index.ts';
import { statement } from '../statement.ts';
import type { SaleRow } from './find.ts';
import { inOrderOf } from './open-lots.ts';

const given = sql.placeholder;

export type BidOfLot = typeof bid.$inferSelect;

const findBid = statement(({ db }) =>
  db
    .select()
    .from(bid)
    .where(eq(bid.id, given('id')))
    .prepare(),
);

export function bidById(book: Book, id: number): BidOfLot | undefined {
  return findBid(book).get({ id });
}

const findBids = statement(({ db }) =>
  db
    .select()
    .from(bid)
    .where(eq(bid.lotId, given('lotId')))
    .orderBy(asc(bid.id))
    .prepare(),
);

/** Every bid on a lot and every taking back of one, in the order taken down. */
export function bidsOfLot(book: Book, lotId: number): BidOfLot[] {
  return findBids(book).all({ lotId });
}

export interface BlockBid {
  readonly buyerNo: number;
  readonly price: string;
}

const findLeft = statement(({ db }) =>
  db
    .select({ buyerNo: buyer.buyerNo, priceCents: liveBid.priceCents })
    .from(liveBid)
    .innerJoin(buyer, eq(buyer.id, liveBid.buyerId))
    .where(and(eq(liveBid.lotId, given('lotId')), eq(liveBid.kind, 'left')))
    .orderBy(desc(liveBid.priceCents), asc(liveBid.id))
    .prepare(),
);

/** The left bids that still count, the highest first and the earlier of two equal ones before the later. */
export function leftBids(book: Book, lotId: number): BlockBid[] {
  const rows = findLeft(book).all({ lotId });
  return rows.map(({ buyerNo, priceCents }) => ({ buyerNo, price: showMoney(cents(priceCents)) }));
}

export interface LeftBid {
  readonly bidId: number;
  readonly lotNo: string;
  readonly goodsName: string;
  readonly buyerNo: number;
}

export interface LeftView {
  readonly line: number;
  readonly saleId: number;
  readonly bids: readonly LeftBid[];
}

/** From the bids of the sale's buyers on: most lots of a sale have none. */
const findLeftOfSale = statement(({ db }) =>
  db
    .select({
      ...{ bidId: liveBid.id, buyerNo: buyer.buyerNo, lotId: lotNow.id, sellerNo: lotNow.sellerNo },
      ...{ lotNumber: lotNow.lotNumber, lotLetter: lotNow.lotLetter, place: lotNow.place, goodsName: lotNow.goodsName },
      outcome: lotNow.outcome,
    })
    .from(buyer)
    .crossJoin(liveBid)
    .crossJoin(lotNow)
    .where(
      and(
        ...[eq(buyer.saleId, given('saleId')), eq(liveBid.buyerId, buyer.id), eq(liveBid.kind, 'left')],
        eq(lotNow.id, liveBid.lotId),
      ),
    )
    .orderBy(asc(liveBid.id))
    .prepare(),
);

/** The left bids on lots still to be called, without their prices: those show at the Block when their lot is up. */
export function leftView(book: Book, sale: SaleRow): LeftView {
  const rows = findLeftOfSale(book)
    .all({ saleId: sale.id })
    .filter(({ outcome }) => outcome === null)
    .map((row) => ({ ...row, lotNo: lotNoOf(row) }));
  const bids = inOrderOf(sale, rows).map(({ bidId, lotNo, goodsName, buyerNo }) => ({
    ...{ bidId, lotNo, goodsName, buyerNo },
  }));
  return { line: newestLine(book), saleId: sale.id, bids };
}
