/** A sale of the book as the rows of an exchange folder: the way back of an import. */
import { and, asc, eq, getTableColumns, isNull, ne } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { lotNoOf, rowsBy, saleById } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { formerTexts } from '#db/lot/former.ts';
import * as t from '#db/schema/index.ts';
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { cellsOfFacts, pick } from '#lib/field/fields.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import type { LotNo } from '#lib/lot/number.ts';
import { type Cents, cents } from '#lib/money/money.ts';
import { awardLot } from '#lib/outcome/award.ts';
import { isLate, standingBids } from '#lib/outcome/bid.ts';
import { PERSON_FIELDS } from '#lib/person/fields.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Bid, Lot, SaleFacts } from '#lib/sale/facts.ts';
import { GOODS_FIELDS } from '#lib/sale/goods-fields.ts';
import { bankRows } from './bank-rows.ts';
import type { WholeRows } from './read-table.ts';
import { counts, type RowOf } from './tables.ts';

/** The rows of one sale, in the order in which the folder has them. */
export function bookRows(book: Book, saleId: number, facts: SaleFacts): WholeRows {
  const bids = bidRows(book, saleId);
  const { ofPayments, ...bank } = bankRows(book, saleId);
  const former = formerTexts(book, saleId);
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
      former_numbers: former.get(lotNo) ?? '',
    })),
    tags: tagRows(book, saleId),
    bids,
    results: resultRows(facts, bids.filter(counts), awardedLots(book, saleId)),
    charges: facts.charges.map(({ sellerNo, kind, amountCents, how, note }) => ({
      ...{ seller_no: sellerNo, kind, amount: amountCents, how, note },
    })),
    payments: facts.payments.map((payment, at) => ({ ...NOT_AT_BANK, ...paymentRow(payment), ...ofPayments[at] })),
    takings: facts.takings.map(({ kind, method, amountCents: amount, note, takenAt }) => ({
      ...{ kind, method, amount, note, taken_at: takenAt },
    })),
    ...bank,
  };
}

const NOT_AT_BANK = { deposit: null, on_statement: null };

function paymentRow(payment: SaleFacts['payments'][number]): Omit<RowOf<'payments'>, keyof typeof NOT_AT_BANK> {
  const { direction, method, amountCents: amount, reference, paidAt } = payment;
  const party = { buyer_no: payment.buyerNo, seller_no: payment.sellerNo, person_id: payment.personId };
  return { direction, ...party, method, amount, reference, paid_at: paidAt };
}

const particularsIn = rowsBy(t.particulars, t.particulars.id, 'saleId');

function peopleRows(book: Book, saleId: number): RowOf<'people'>[] {
  return particularsIn(book, saleId).map((row) => ({ person_id: row.ref, ...cellsOfFacts(PERSON_FIELDS, row) }));
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

/** Every bid in the order typed, on the lot it was meant for, and why it counts no more. An under-bid was never left with anybody. */
function bidRows(book: Book, saleId: number): RowOf<'bids'>[] {
  const rows = book.db
    .select({
      ...getTableColumns(t.bid),
      ...pick(t.lot, ['lotNumber', 'lotLetter']),
      buyerNo: t.buyer.buyerNo,
    })
    .from(t.bid)
    .innerJoin(t.lot, eq(t.lot.id, t.bid.lotId))
    .innerJoin(t.buyer, eq(t.buyer.id, t.bid.buyerId))
    .where(eq(t.lot.saleId, saleId))
    .orderBy(asc(t.bid.id))
    .all();
  const sale = saleById(book, saleId);
  const times = { closeAt: sale?.bidsCloseAt ?? null, closedAt: sale?.bidsClosedAt ?? null };
  const byLot = groupBy(rows, (row) => row.lotId);
  const standing = new Set([...byLot.values()].flatMap((own) => standingBids(own).map((row) => row.id)));
  const away = new Set(rows.flatMap(({ moved, retractsId }) => (moved && retractsId !== null ? [retractsId] : [])));
  const endOf = ({ id, kind, receivedAt }: (typeof rows)[number]) => {
    if (!standing.has(id)) return 'retracted';
    return kind === 'written' && isLate(times, receivedAt) ? 'late' : null;
  };
  return rows
    .filter((row) => row.kind !== 'under' && row.retractsId === null && !away.has(row.id))
    .map((row) => ({
      lot_no: lotNoOf(row),
      buyer_no: row.buyerNo,
      price: cents(row.priceCents),
      received_at: row.receivedAt,
      ended: endOf(row),
    }));
}

/** The lots whose standing outcome followed from the written bids. */
function awardedLots(book: Book, saleId: number): ReadonlySet<LotNo> {
  const later = alias(t.outcome, 'later');
  const rows = book.db
    .select(pick(t.lot, ['lotNumber', 'lotLetter']))
    .from(t.outcome)
    .innerJoin(t.lot, eq(t.lot.id, t.outcome.lotId))
    .leftJoin(later, eq(later.replacesId, t.outcome.id))
    .where(and(eq(t.lot.saleId, saleId), eq(t.outcome.awarded, true), isNull(later.id)))
    .all();
  return new Set(rows.map(lotNoOf));
}

/** What follows from `bids.csv` is not said again; where the bids no longer give it, it is. */
function resultRows(facts: SaleFacts, bids: readonly RowOf<'bids'>[], awarded: ReadonlySet<LotNo>): RowOf<'results'>[] {
  const awards = awarded.size > 0 ? awardsOf(facts.lots, bids.map(bidOfRow)) : new Map();
  const follows = (lotNo: LotNo, price: Cents | null, buyerNo: number | null) => {
    const award = awarded.has(lotNo) && facts.sale.bidding === 'sealed' ? awards.get(lotNo) : undefined;
    return award !== undefined && award.priceCents === price && award.buyerNo === buyerNo;
  };
  return facts.outcomes
    .filter(({ lotNo, priceCents, buyerNo }) => !follows(lotNo, priceCents, buyerNo))
    .map(({ lotNo, kind, priceCents, buyerNo, fate = null }) => ({
      ...{ lot_no: lotNo, outcome: kind, price: priceCents, buyer_no: buyerNo, fate },
    }));
}

export type AwardedLot = Pick<Bid, 'lotNo' | 'priceCents' | 'buyerNo'>;

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
    awards.set(lot.lotNo, { lotNo: lot.lotNo, priceCents: award.priceCents, buyerNo: award.buyerNo });
  }
  return awards;
}
