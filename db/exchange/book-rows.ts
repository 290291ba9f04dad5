/** A sale of the book as the rows of an exchange folder: the way back of an import. */
import { and, asc, eq, isNull, ne } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { lotNoOf } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import * as t from '#db/schema/index.ts';
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { cellsOfFacts } from '#lib/field/fields.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import type { LotNo } from '#lib/lot/number.ts';
import { type Cents, cents } from '#lib/money/money.ts';
import { awardLot } from '#lib/outcome/award.ts';
import { standingBids } from '#lib/outcome/bid.ts';
import { PERSON_FIELDS } from '#lib/person/fields.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Bid, Lot, SaleFacts } from '#lib/sale/facts.ts';
import { GOODS_FIELDS } from '#lib/sale/goods-fields.ts';
import type { WholeRows } from './read-table.ts';
import type { RowOf } from './tables.ts';

/** The rows of one sale, in the order in which the folder has them. */
export function bookRows(book: Book, saleId: number, facts: SaleFacts): WholeRows {
  const bids = bidRows(book, saleId);
  return {
    goods: facts.goods.map((kind) => cellsOfFacts(GOODS_FIELDS, kind)),
    people: peopleRows(book, saleId),
    sellers: facts.sellers.flatMap(({ sellerNo, partners }) =>
      partners.map(({ personId, parts }) => ({ seller_no: sellerNo, person_id: personId, parts })),
    ),
    buyers: facts.buyers.map(({ buyerNo, personId, cleared, ...facts }) => ({
      ...{ buyer_no: buyerNo, person_id: personId, cleared },
      ...cellsOfFacts(BUYER_FIELDS, facts),
    })),
    lots: facts.lots.map(({ lotNo, sellerNo, ...facts }) => ({
      ...{ lot_no: lotNo, seller_no: sellerNo },
      ...cellsOfFacts(LOT_FIELDS, facts),
    })),
    tags: tagRows(book, saleId),
    bids,
    results: resultRows(facts, { bids, awarded: awardedLots(book, saleId) }),
    charges: facts.charges.map(({ sellerNo, kind, amountCents, how, note }) => ({
      ...{ seller_no: sellerNo, kind, amount: amountCents, how, note },
    })),
    payments: facts.payments.map(paymentRow),
  };
}

function paymentRow(payment: SaleFacts['payments'][number]): RowOf<'payments'> {
  const { direction, method, amountCents: amount, reference, paidAt } = payment;
  const party = { buyer_no: payment.buyerNo, seller_no: payment.sellerNo, person_id: payment.personId };
  return { direction, ...party, method, amount, reference, paid_at: paidAt };
}

function peopleRows(book: Book, saleId: number): RowOf<'people'>[] {
  const own = eq(t.particulars.saleId, saleId);
  const rows = book.db.select().from(t.particulars).where(own).orderBy(asc(t.particulars.id)).all();
  return rows.map((row) => ({ person_id: row.ref, ...cellsOfFacts(PERSON_FIELDS, row) }));
}

/** Broken tags stay behind: the tag that replaced one is the piece's tag. */
function tagRows(book: Book, saleId: number): RowOf<'tags'>[] {
  const { lotNumber, lotLetter } = t.lot;
  return book.db
    .select({ lotNumber, lotLetter, tag: t.tag.tag })
    .from(t.tag)
    .innerJoin(t.lot, eq(t.lot.id, t.tag.lotId))
    .where(and(eq(t.lot.saleId, saleId), ne(t.tag.condition, 'broken')))
    .orderBy(asc(lotNumber), asc(lotLetter), asc(t.tag.position), asc(t.tag.id))
    .all()
    .map((row) => ({ lot_no: lotNoOf(row), tag: row.tag }));
}

/** The bids that still count, in the order received. An under-bid was never left with anybody. */
function bidRows(book: Book, saleId: number): RowOf<'bids'>[] {
  const { id, lotId, buyerId, kind, priceCents, receivedAt, retractsId } = t.bid;
  const rows = book.db
    .select({
      ...{ id, lotId, buyerId, kind, priceCents, receivedAt, retractsId },
      lotNumber: t.lot.lotNumber,
      lotLetter: t.lot.lotLetter,
      buyerNo: t.buyer.buyerNo,
    })
    .from(t.bid)
    .innerJoin(t.lot, eq(t.lot.id, lotId))
    .innerJoin(t.buyer, eq(t.buyer.id, buyerId))
    .where(eq(t.lot.saleId, saleId))
    .orderBy(asc(id))
    .all();
  const byLot = groupBy(rows, (row) => row.lotId);
  const standing = new Set([...byLot.values()].flatMap((own) => standingBids(own).map((row) => row.id)));
  return rows
    .filter((row) => row.kind !== 'under' && standing.has(row.id))
    .map((row) => ({
      lot_no: lotNoOf(row),
      buyer_no: row.buyerNo,
      price: cents(row.priceCents),
      received_at: row.receivedAt,
    }));
}

/** The lots whose standing outcome followed from the written bids. */
function awardedLots(book: Book, saleId: number): ReadonlySet<LotNo> {
  const later = alias(t.outcome, 'later');
  const { lotNumber, lotLetter } = t.lot;
  const rows = book.db
    .select({ lotNumber, lotLetter })
    .from(t.outcome)
    .innerJoin(t.lot, eq(t.lot.id, t.outcome.lotId))
    .leftJoin(later, eq(later.replacesId, t.outcome.id))
    .where(and(eq(t.lot.saleId, saleId), eq(t.outcome.awarded, true), isNull(later.id)))
    .all();
  return new Set(rows.map(lotNoOf));
}

interface ResultSources {
  readonly bids: readonly RowOf<'bids'>[];
  readonly awarded: ReadonlySet<LotNo>;
}

/** What follows from `bids.csv` is not said again; where the bids no longer give it, it is. */
function resultRows(facts: SaleFacts, { bids, awarded }: ResultSources): RowOf<'results'>[] {
  const awards = awarded.size > 0 ? awardsOf(facts.lots, bids.map(bidOfRow)) : new Map();
  const follows = (lotNo: LotNo, price: Cents | null, buyerNo: number | null) => {
    const award = awarded.has(lotNo) && facts.sale.bidding === 'sealed' ? awards.get(lotNo) : undefined;
    return award !== undefined && award.priceCents === price && award.buyerNo === buyerNo;
  };
  return facts.outcomes
    .filter(({ lotNo, priceCents, buyerNo }) => !follows(lotNo, priceCents, buyerNo))
    .map(({ lotNo, kind, priceCents, buyerNo }) => ({
      ...{ lot_no: lotNo, outcome: kind, price: priceCents, buyer_no: buyerNo },
    }));
}

export interface AwardedLot {
  readonly lotNo: LotNo;
  readonly priceCents: Cents;
  readonly buyerNo: number;
}

export function bidOfRow(row: RowOf<'bids'>): Bid {
  return { lotNo: row.lot_no, buyerNo: row.buyer_no, priceCents: row.price, receivedAt: row.received_at };
}

/** The awards by lot number; a lot whose best bid is below its minimum waits and is not among them. */
export function awardsOf(
  lots: readonly Pick<Lot, 'lotNo' | 'minimumCents'>[],
  bids: readonly Bid[],
): Map<LotNo, AwardedLot> {
  const byLot = groupBy(bids, ({ lotNo }) => lotNo);
  const awards = new Map<LotNo, AwardedLot>();
  for (const lot of lots) {
    const award = awardLot(lot, byLot.get(lot.lotNo) ?? []);
    if (award.kind !== 'awarded') continue;
    const { priceCents, buyerNo } = award;
    awards.set(lot.lotNo, { lotNo: lot.lotNo, priceCents, buyerNo });
  }
  return awards;
}
