/**
 * Reads all the facts of one sale into the shapes that the sums in `lib/` take: one read a table, no sum here.
 */
import { and, asc, eq, gt, type SQL, sql } from 'drizzle-orm';
import { lotNoOf, rowsBy, type SaleRow, saleById } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import * as t from '#db/schema/index.ts';
import { arrayReader, factsOfRow, inFolder, pick } from '#lib/field/fields.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import { type Cents, ZERO } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';
import { groupBy } from '#lib/result/text.ts';
import type { CommissionRates, Goods, Lot, Outcome, Sale, SaleFacts, Seller } from '#lib/sale/facts.ts';
import { RATE_FIELDS, SALE_FIELDS, TERM_FIELDS } from '#lib/sale/terms-fields.ts';
import { timeZoneOf } from './queries.ts';
import {
  buyersIn,
  lotsIn,
  ownedByBuyer,
  ownedBySeller,
  type Scope,
  type ScopeKind,
  scoped,
  scopedStatement,
  scopeValues,
  sellersIn,
} from './scope.ts';

/** All the facts of a sale. Throws where there is no such sale: the caller has looked it up. */
export function saleFacts(book: Book, saleId: number): SaleFacts {
  return factsOf(book, saleId, null);
}

/** The same of one seller number only, so that one sheet does not cost the reading of a whole sale. Buyers are all there. */
export function sellerFacts(book: Book, saleId: number, sellerNo: number): SaleFacts {
  return factsOf(book, saleId, { sellerNo });
}

/** The same of one buyer number only: what it bought and paid, and the seller numbers it bought from. No charges. */
export function buyerFacts(book: Book, saleId: number, buyerNo: number): SaleFacts {
  return factsOf(book, saleId, { buyerNo });
}

/** All the facts of whatever a scope takes in. */
export function factsOf(book: Book, saleId: number, scope: Scope): SaleFacts {
  const row = saleById(book, saleId);
  if (!row) throw new RangeError(`The book has no sale ${saleId}.`);
  return {
    sale: saleOfRow(book, row),
    timeZone: timeZoneOf(book),
    goods: goodsOf(book, saleId),
    sellers: sellersOf(book, saleId, scope),
    buyers: buyersOf(book, saleId, scope),
    ...calledOf(book, saleId, scope),
    charges: chargesOf(book, saleId, scope),
    payments: paymentsOf(book, saleId, scope),
    takings: takingsOf(book, saleId, scope),
    cardFees: cardFeesOf(book, saleId, scope),
  };
}

export function saleOfRow(book: Book, row: SaleRow): Sale {
  const commission = factsOfRow(RATE_FIELDS, { member: row.commissionMemberPct, guest: row.commissionGuestPct });
  const commissionOverrides = overridesOf(book, row.id);
  return {
    ...factsOfRow(SALE_FIELDS, row),
    terms: { commission, commissionOverrides, ...factsOfRow(TERM_FIELDS, row) },
  };
}

const findOverrides = query(({ db }) =>
  db
    .select()
    .from(t.commissionOverride)
    .where(equals(t.commissionOverride.saleId, 'saleId'))
    .orderBy(asc(t.commissionOverride.goods)),
);

function overridesOf(book: Book, saleId: number): Record<string, CommissionRates> {
  const rows = findOverrides(book).all({ saleId });
  return Object.fromEntries(rows.map((row) => [row.goods, { member: rate(row.memberPct), guest: rate(row.guestPct) }]));
}

/** The goods that a sale takes, in the order in which they were entered. */
export const goodsRowsOf = rowsBy(t.goods, t.goods.id, 'saleId');

export function goodsOf(book: Book, saleId: number): Goods[] {
  const facts = ['goods', 'name', 'scientificName', 'by', 'exportTag', 'tagSpeciesCode', 'seasonLimit'] as const;
  return goodsRowsOf(book, saleId).map((row) => pick(row, facts));
}

const findPartners = scoped(({ db }, kind) =>
  db
    .select({
      sellerNo: t.seller.sellerNo,
      personId: t.particulars.ref,
      memberUntil: t.particulars.memberUntil,
      parts: t.partner.parts,
    })
    .from(t.seller)
    .innerJoin(t.partner, eq(t.partner.sellerId, t.seller.id))
    .innerJoin(
      t.particulars,
      and(eq(t.particulars.saleId, t.seller.saleId), eq(t.particulars.personId, t.partner.personId)),
    )
    .where(sellersIn(kind))
    .orderBy(asc(t.seller.sellerNo), asc(t.partner.position)),
);

function sellersOf(book: Book, saleId: number, scope: Scope): Seller[] {
  const bySeller = groupBy(findPartners(book, saleId, scope), ({ sellerNo }) => sellerNo);
  return [...bySeller].map(([sellerNo, own]) => ({ sellerNo, partners: own.map(({ sellerNo: _, ...one }) => one) }));
}

const buyersOf = scoped(({ db }, kind) =>
  db
    .select({
      ...pick(t.buyer, ['buyerNo', 'licenceNo', 'taxExempt', 'exemptNo', 'cleared']),
      personId: t.particulars.ref,
    })
    .from(t.buyer)
    .innerJoin(
      t.particulars,
      and(eq(t.particulars.saleId, t.buyer.saleId), eq(t.particulars.personId, t.buyer.personId)),
    )
    .where(buyersIn(kind))
    .orderBy(asc(t.buyer.buyerNo)),
);

const said = arrayReader(inFolder(LOT_FIELDS));

/** Each lot with the outcome in force for it, in one pass over both: what is said of it first, then {@link LotEnds}. */
const findLots = scopedStatement(({ db }, kind) =>
  db
    .select({
      ...pick(t.lotNow, said.names),
      ...pick(t.lotNow, ['lotNumber', 'lotLetter', 'sellerNo', 'outcome', 'priceCents', 'buyerNo', 'fate']),
    })
    .from(t.lotNow)
    .where(lotsIn(kind, t.lotNow))
    .orderBy(asc(t.lotNow.lotNumber), asc(t.lotNow.lotLetter)),
);

type LotEnds = [
  lotNumber: number,
  lotLetter: string,
  sellerNo: number,
  outcome: Outcome['kind'] | null,
  priceCents: Cents | null,
  buyerNo: number | null,
  fate: Outcome['fate'] | null,
];

function calledOf(book: Book, saleId: number, scope: Scope): Pick<SaleFacts, 'lots' | 'outcomes'> {
  const lots: Lot[] = [];
  const outcomes: Outcome[] = [];
  for (const cells of findLots(book, scope).values(scopeValues(saleId, scope))) {
    const ends = cells.slice(said.names.length) as LotEnds;
    const [lotNumber, lotLetter, sellerNo, kind, priceCents, buyerNo, fate] = ends;
    const lotNo = lotNoOf({ lotNumber, lotLetter });
    lots.push(Object.assign(said.read(cells), { lotNo, sellerNo }));
    if (kind !== null) outcomes.push({ lotNo, kind, priceCents, buyerNo, ...(fate && { fate }) });
  }
  return { lots, outcomes };
}

/** A buyer has no charges: nobody asks. */
const chargesOf = scoped(({ db }, kind) =>
  db
    .select({ sellerNo: t.seller.sellerNo, ...pick(t.liveCharge, ['kind', 'amountCents', 'how', 'note']) })
    .from(t.liveCharge)
    .innerJoin(t.seller, eq(t.seller.id, t.liveCharge.sellerId))
    .where(kind === 'buyer' ? sql`0` : sellersIn(kind))
    .orderBy(asc(t.liveCharge.id)),
);

const paymentsOf = scoped(({ db }, kind) =>
  db
    .select({
      ...pick(t.livePayment, ['direction', 'method', 'amountCents', 'reference', 'paidAt']),
      buyerNo: t.buyer.buyerNo,
      sellerNo: t.seller.sellerNo,
      personId: t.particulars.ref,
    })
    .from(t.livePayment)
    .leftJoin(t.buyer, eq(t.buyer.id, t.livePayment.buyerId))
    .leftJoin(t.seller, eq(t.seller.id, t.livePayment.sellerId))
    .leftJoin(
      t.particulars,
      and(eq(t.particulars.saleId, t.livePayment.saleId), eq(t.particulars.personId, t.livePayment.personId)),
    )
    .where(paymentsIn(kind))
    .orderBy(asc(t.livePayment.id)),
);

/** Nobody's money is no seller's and no buyer's. */
const takingsOf = scoped(({ db }, kind) =>
  db
    .select({ ...pick(t.liveTaking, ['kind', 'method', 'amountCents', 'note']), takenAt: t.liveTaking.at })
    .from(t.liveTaking)
    .where(kind === 'sale' ? equals(t.liveTaking.saleId, 'saleId') : sql`0`)
    .orderBy(asc(t.liveTaking.id)),
);

const cardFeesOf = scoped(({ db }, kind) =>
  db
    .select(pick(t.liveArrival, ['method', 'day', 'feeCents']))
    .from(t.liveArrival)
    .where(kind === 'sale' ? and(equals(t.liveArrival.saleId, 'saleId'), gt(t.liveArrival.feeCents, ZERO)) : sql`0`)
    .orderBy(asc(t.liveArrival.id)),
);

function paymentsIn(kind: ScopeKind): SQL {
  if (kind === 'seller') return ownedBySeller(t.livePayment.sellerId);
  return kind === 'buyer' ? ownedByBuyer(t.livePayment.buyerId) : equals(t.livePayment.saleId, 'saleId');
}
