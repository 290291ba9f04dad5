/** The bids on a lot, and the left bids of a sale. */
import { and, asc, desc, eq } from 'drizzle-orm';
import { lotNoOf, rowBy, rowsBy, type SaleRow } from '#db/book/find.ts';
import { newestLine } from '#db/book/log.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { inOrderOf } from '#db/lot/open-lots.ts';
import { bid, buyer, liveBid, lot, lotNow } from '#db/schema/index.ts';
import { pick } from '#lib/field/fields.ts';
import { showMoney } from '#lib/money/money.ts';
import { standingBids } from '#lib/outcome/bid.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Bid } from '#lib/sale/facts.ts';

export const bidById = rowBy(bid, 'id');

/** Every bid on a lot and every taking back of one, in the order taken down. */
export const bidsOfLot = rowsBy(bid, bid.id, 'lotId');

export interface BlockBid {
  readonly buyerNo: number;
  readonly price: string;
}

const findLeft = query(({ db }) =>
  db
    .select({ buyerNo: buyer.buyerNo, priceCents: liveBid.priceCents })
    .from(liveBid)
    .innerJoin(buyer, eq(buyer.id, liveBid.buyerId))
    .where(and(equals(liveBid.lotId, 'lotId'), eq(liveBid.kind, 'left')))
    .orderBy(desc(liveBid.priceCents), asc(liveBid.id)),
);

/** The left bids that still count, the highest first and the earlier of two equal ones before the later. */
export function leftBids(book: Book, lotId: number): BlockBid[] {
  const rows = findLeft(book).all({ lotId });
  return rows.map(({ buyerNo, priceCents }) => ({ buyerNo, price: showMoney(priceCents) }));
}

interface LeftBid {
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
const findLeftOfSale = query(({ db }) =>
  db
    .select({
      bidId: liveBid.id,
      buyerNo: buyer.buyerNo,
      ...pick(lotNow, ['lotNumber', 'lotLetter', 'sellerNo', 'place', 'goodsName', 'outcome']),
    })
    .from(buyer)
    .crossJoin(liveBid)
    .crossJoin(lotNow)
    .where(
      and(
        ...[equals(buyer.saleId, 'saleId'), eq(liveBid.buyerId, buyer.id), eq(liveBid.kind, 'left')],
        eq(lotNow.id, liveBid.lotId),
      ),
    )
    .orderBy(asc(liveBid.id)),
);

/** The left bids on lots still to be called, without their prices: those show at the Block when their lot is up. */
export function leftView(book: Book, sale: SaleRow): LeftView {
  const rows = findLeftOfSale(book)
    .all({ saleId: sale.id })
    .filter(({ outcome }) => outcome === null)
    .map((row) => ({ ...row, lotNo: lotNoOf(row) }));
  const bids = inOrderOf(sale, rows).map((row) => pick(row, ['bidId', 'lotNo', 'goodsName', 'buyerNo']));
  return { line: newestLine(book), saleId: sale.id, bids };
}

export interface WrittenBid extends Bid {
  readonly bidId: number;
  readonly lotId: number;
  readonly buyerId: number;
}

const findWritten = query(({ db }) =>
  db
    .select({ row: bid, buyerNo: buyer.buyerNo, lotNumber: lot.lotNumber, lotLetter: lot.lotLetter })
    .from(bid)
    .innerJoin(lot, eq(lot.id, bid.lotId))
    .innerJoin(buyer, eq(buyer.id, bid.buyerId))
    .where(and(equals(lot.saleId, 'saleId'), eq(bid.kind, 'written')))
    .orderBy(asc(bid.id)),
);

/** In the order taken down. A bid taken back revives none that its buyer wrote before it. */
export function writtenBids(book: Book, saleId: number): WrittenBid[] {
  const rows = findWritten(book).all({ saleId });
  const byLot = groupBy(
    rows.map(({ row }) => row),
    ({ lotId }) => lotId,
  );
  const standing = new Set([...byLot.values()].flatMap((own) => standingBids(own).map(({ id }) => id)));
  return rows
    .filter(({ row }) => standing.has(row.id))
    .map(({ row, buyerNo, ...number }) => ({
      ...{ bidId: row.id, lotId: row.lotId, buyerId: row.buyerId, buyerNo, lotNo: lotNoOf(number) },
      ...{ priceCents: row.priceCents, receivedAt: row.receivedAt },
    }));
}
