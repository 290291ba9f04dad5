/** The bids on a lot, and the left bids of a sale. */
import { and, asc, desc, eq } from 'drizzle-orm';
import { type LotRow, lotNoOf, rowBy, rowsBy, type SaleRow } from '#db/book/find.ts';
import { newestLine } from '#db/book/log.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { inOrderOf } from '#db/lot/open-lots.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { bid, buyer, liveBid, lot, lotNow } from '#db/schema/index.ts';
import { momentInWords } from '#lib/date/date.ts';
import { pick } from '#lib/field/fields.ts';
import { compareLotNo, type LotNo } from '#lib/lot/number.ts';
import { type Cents, showMoney } from '#lib/money/money.ts';
import { isLate, standingBids } from '#lib/outcome/bid.ts';
import { becameOfLeft, type LeftContext, leftBidInWords } from '#lib/outcome/left.ts';
import { byHandedIn } from '#lib/outcome/written.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Bid } from '#lib/sale/facts.ts';
import { calledLot } from './called.ts';

export const bidById = rowBy(bid, 'id');

/** Every bid on a lot and every taking back of one, in the order taken down. */
export const bidsOfLot = rowsBy(bid, bid.id, 'lotId');

const findOfKind = query(({ db }) =>
  db
    .select({
      ...{ bidId: liveBid.id, buyerId: liveBid.buyerId, buyerNo: buyer.buyerNo },
      ...pick(liveBid, ['priceCents', 'receivedAt']),
    })
    .from(liveBid)
    .innerJoin(buyer, eq(buyer.id, liveBid.buyerId))
    .where(and(equals(liveBid.lotId, 'lotId'), equals(liveBid.kind, 'kind')))
    .orderBy(desc(liveBid.priceCents), asc(liveBid.id)),
);

/** The bids of one kind on a lot that still count: the highest first, and of equal ones that which was handed in first. */
function ofKind(book: Book, lotId: number, kind: 'left' | 'under') {
  const rows = findOfKind(book).all({ lotId, kind });
  return rows.sort((a, b) => b.priceCents - a.priceCents || byHandedIn(a, b));
}

/** What decides which left bid applies to a lot, and what it makes of it. */
export function leftContext(book: Book, sale: SaleRow, row: LotRow): LeftContext {
  const { leftBids: term, priceStepCents: stepCents } = sale;
  const left = ofKind(book, row.id, 'left');
  return { lotNo: lotNoOf(row), term, stepCents, minimumCents: row.minimumCents, left };
}

/** The left bids that still count, as a paper shows them. */
export function leftBids(book: Book, lotId: number): { readonly buyerNo: number; readonly price: string }[] {
  const rows = ofKind(book, lotId, 'left');
  return rows.map(({ buyerNo, priceCents }) => ({ buyerNo, price: showMoney(priceCents) }));
}

export interface UnderBid {
  readonly buyerId: number;
  readonly buyerNo: number;
  readonly priceCents: Cents;
}

/** The highest under-bid that was noted on a lot; undefined where none was, or it was taken back. */
export function underBidOf(book: Book, lotId: number): UnderBid | undefined {
  return ofKind(book, lotId, 'under')[0];
}

/** The bids that the clerk reads when the lot is up: those left, the one that applies first, and an under-bid. */
export function bidsInWords(book: Book, sale: SaleRow, row: LotRow): string {
  const context = leftContext(book, sale, row);
  const [, ...others] = context.left;
  const under = underBidOf(book, row.id);
  return [
    leftBidInWords(context),
    ...others.map(({ buyerNo, priceCents }) => `buyer ${buyerNo} up to ${showMoney(priceCents)}`),
    under ? `under-bid: buyer ${under.buyerNo} at ${showMoney(under.priceCents)}` : '',
  ]
    .filter((words) => words !== '')
    .join('; ');
}

interface LeftBid {
  readonly bidId: number;
  readonly lotNo: LotNo;
  readonly goodsName: string;
  readonly buyerNo: number;
  /** As people read it. */
  readonly handedIn: string;
}

export interface LeftView {
  readonly line: number;
  readonly saleId: number;
  /** Of the association: times are typed by its clock. */
  readonly timeZone: string;
  readonly bids: readonly LeftBid[];
  /** Those on lots that were called, with what became of each. */
  readonly called: readonly CalledLeftBid[];
}

interface CalledLeftBid extends LeftBid {
  /** A secret no more: the lot was called. */
  readonly price: string;
  /** `took the lot at 15.75`, `sold to another at 17.00`, `earlier equal bid took it`. */
  readonly became: string;
}

/** From the bids of the sale's buyers on: most lots of a sale have none. */
const findLeftOfSale = query(({ db }) =>
  db
    .select({
      bidId: liveBid.id,
      buyerNo: buyer.buyerNo,
      bidCents: liveBid.priceCents,
      receivedAt: liveBid.receivedAt,
      lotId: lotNow.id,
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

const SHOWN = ['bidId', 'lotNo', 'goodsName', 'buyerNo', 'handedIn'] as const;

/** The left bids on lots still to be called, without their prices: those show at the Block when their lot is up. */
export function leftView(book: Book, sale: SaleRow): LeftView {
  const timeZone = timeZoneOf(book);
  const said = (at: string) => (at === '' ? '' : momentInWords(at, timeZone));
  const rows = findLeftOfSale(book)
    .all({ saleId: sale.id })
    .map((row) => ({ ...row, lotNo: lotNoOf(row), handedIn: said(row.receivedAt) }));
  const open = rows.filter(({ outcome }) => outcome === null);
  const bids = inOrderOf(sale, open).map((row) => pick(row, SHOWN));
  const called = rows.flatMap((row) => {
    const now = row.outcome === null ? undefined : calledLot(book, row.lotId);
    if (!now) return [];
    const { kind, priceCents, buyerNo: takerNo } = now;
    const about = { kind, priceCents, takerNo, buyerNo: row.buyerNo, bidCents: row.bidCents };
    const shown = pick(row, SHOWN);
    return [{ ...shown, price: showMoney(row.bidCents), became: becameOfLeft(about) }];
  });
  called.sort((a, b) => a.buyerNo - b.buyerNo || compareLotNo(a.lotNo, b.lotNo));
  return { line: newestLine(book), saleId: sale.id, timeZone, bids, called };
}

export interface WrittenBid extends Bid {
  readonly bidId: number;
  readonly lotId: number;
  readonly buyerId: number;
  readonly retracted: boolean;
  readonly late: boolean;
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

/**
 * Every written bid of a sale by the time it was handed in, also those that were taken back or came late. One that was
 * moved to another lot is there once, on the lot it was meant for.
 */
export function writtenBids(book: Book, sale: SaleRow): WrittenBid[] {
  const rows = findWritten(book).all({ saleId: sale.id });
  const byLot = groupBy(
    rows.map(({ row }) => row),
    ({ lotId }) => lotId,
  );
  const standing = new Set([...byLot.values()].flatMap((own) => standingBids(own).map(({ id }) => id)));
  const away = new Set(rows.flatMap(({ row }) => (row.moved && row.retractsId !== null ? [row.retractsId] : [])));
  const times = { closeAt: sale.bidsCloseAt, closedAt: sale.bidsClosedAt };
  return rows
    .filter(({ row }) => row.retractsId === null && !away.has(row.id))
    .map(({ row, buyerNo, ...number }) => ({
      ...{ bidId: row.id, lotId: row.lotId, buyerId: row.buyerId, buyerNo, lotNo: lotNoOf(number) },
      ...{ priceCents: row.priceCents, receivedAt: row.receivedAt },
      ...{ retracted: !standing.has(row.id), late: isLate(times, row.receivedAt) },
    }))
    .sort(byHandedIn);
}

/** The written bids that count, in the order handed in. */
export function countingBids(bids: readonly WrittenBid[]): WrittenBid[] {
  return bids.filter(({ retracted, late }) => !retracted && !late);
}
