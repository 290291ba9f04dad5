/** Reads all the facts of one sale into the shapes that the sums in `lib/` take: one read a table, no sum here. */
import { and, asc, eq, isNull, ne, type SQL } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import type {
  Buyer,
  Charge,
  CommissionRates,
  Goods,
  Lot,
  Outcome,
  Partner,
  Payment,
  Sale,
  SaleFacts,
  Seller,
} from '#lib/facts.ts';
import { type Cents, cents } from '#lib/money.ts';
import { rate } from '#lib/rate.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import * as t from '../schema/index.ts';
import { type SaleRow, saleById } from './find.ts';

/** All the facts of a sale. Throws where there is no such sale: the caller has looked it up. */
export function saleFacts(book: Book, saleId: number): SaleFacts {
  return factsOf(book, saleId, null);
}

/** The same of one seller number only, so that one sheet does not cost the reading of a whole sale. Buyers are all there. */
export function sellerFacts(book: Book, saleId: number, sellerNo: number): SaleFacts {
  return factsOf(book, saleId, sellerNo);
}

function factsOf(book: Book, saleId: number, only: number | null): SaleFacts {
  const row = saleById(book, saleId);
  if (!row) throw new RangeError(`The book has no sale ${saleId}.`);
  return {
    sale: saleOfRow(book, row),
    goods: goodsOf(book, saleId),
    sellers: sellersOf(book, saleId, only),
    buyers: buyersOf(book, saleId),
    lots: lotsOf(book, saleId, only),
    outcomes: outcomesOf(book, saleId, only),
    charges: chargesOf(book, saleId, only),
    payments: paymentsOf(book, saleId, only),
  };
}

/** Limits rows to one seller number where one is asked for. */
function ofSeller(only: number | null): SQL | undefined {
  return only === null ? undefined : eq(t.seller.sellerNo, only);
}

export function saleOfRow(book: Book, row: SaleRow): Sale {
  const { name, heldOn, venue, season, seasonClosesOn, region, currency, bidding } = row;
  return {
    ...{ name, heldOn, venue, season, seasonClosesOn, region, currency, bidding },
    terms: {
      commission: { member: rate(row.commissionMemberPct), guest: rate(row.commissionGuestPct) },
      commissionOverrides: overridesOf(book, row.id),
      commissionMinCents: cents(row.commissionMinCents),
      sellerNumberFeeCents: cents(row.sellerNumberFeeCents),
      lotFeeCents: cents(row.lotFeeCents),
      noSaleFlatCents: cents(row.noSaleFlatCents),
      noSalePctOfMinimum: rate(row.noSalePctOfMinimum),
      premiumPct: rate(row.premiumPct),
      taxPct: rate(row.taxPct),
      priceStepCents: cents(row.priceStepCents),
      guestsMaySell: row.guestsMaySell,
      duesCents: cents(row.duesCents),
    },
  };
}

function overridesOf(book: Book, saleId: number): Record<string, CommissionRates> {
  const { commissionOverride: own } = t;
  const rows = book.db.select().from(own).where(eq(own.saleId, saleId)).orderBy(asc(own.goods)).all();
  return Object.fromEntries(rows.map((row) => [row.goods, { member: rate(row.memberPct), guest: rate(row.guestPct) }]));
}

function goodsOf(book: Book, saleId: number): Goods[] {
  const rows = book.db.select().from(t.goods).where(eq(t.goods.saleId, saleId)).orderBy(asc(t.goods.id)).all();
  return rows.map(({ goods, name, scientificName, by, exportTag, tagSpeciesCode, seasonLimit }) => ({
    ...{ goods, name, scientificName, by, exportTag, tagSpeciesCode, seasonLimit },
  }));
}

function sellersOf(book: Book, saleId: number, only: number | null): Seller[] {
  const rows = book.db
    .select({
      sellerNo: t.seller.sellerNo,
      personId: t.particulars.ref,
      memberUntil: t.particulars.memberUntil,
      parts: t.partner.parts,
    })
    .from(t.partner)
    .innerJoin(t.seller, eq(t.seller.id, t.partner.sellerId))
    .innerJoin(t.particulars, and(eq(t.particulars.personId, t.partner.personId), eq(t.particulars.saleId, saleId)))
    .where(and(eq(t.seller.saleId, saleId), ofSeller(only)))
    .orderBy(asc(t.seller.sellerNo), asc(t.partner.position))
    .all();
  const partnersOf = new Map<number, Partner[]>();
  for (const { sellerNo, ...partner } of rows) {
    const sharing = partnersOf.get(sellerNo);
    if (sharing) sharing.push(partner);
    else partnersOf.set(sellerNo, [partner]);
  }
  return [...partnersOf].map(([sellerNo, partners]) => ({ sellerNo, partners }));
}

function buyersOf(book: Book, saleId: number): Buyer[] {
  const { buyerNo, licenceNo, taxExempt, exemptNo, cleared } = t.buyer;
  return book.db
    .select({ buyerNo, personId: t.particulars.ref, licenceNo, taxExempt, exemptNo, cleared })
    .from(t.buyer)
    .innerJoin(t.particulars, and(eq(t.particulars.personId, t.buyer.personId), eq(t.particulars.saleId, saleId)))
    .where(eq(t.buyer.saleId, saleId))
    .orderBy(asc(buyerNo))
    .all();
}

function lotsOf(book: Book, saleId: number, only: number | null): Lot[] {
  const { lotNumber, lotLetter, by, count, weightThousandths, size, grade, section, minimumCents, donated, note } =
    t.lot;
  const columns = {
    lotNumber,
    lotLetter,
    by,
    count,
    weightThousandths,
    size,
    grade,
    section,
    minimumCents,
    donated,
    note,
  };
  const rows = book.db
    .select({ ...columns, sellerNo: t.seller.sellerNo, goods: t.goods.goods })
    .from(t.lot)
    .innerJoin(t.seller, eq(t.seller.id, t.lot.sellerId))
    .innerJoin(t.goods, eq(t.goods.id, t.lot.goodsId))
    .where(and(eq(t.lot.saleId, saleId), ofSeller(only)))
    .orderBy(asc(lotNumber), asc(lotLetter))
    .all();
  return rows.map(({ lotNumber: number, lotLetter: letter, minimumCents: minimum, ...row }) => ({
    ...row,
    lotNo: lotNoOf({ lotNumber: number, lotLetter: letter }),
    minimumCents: centsOrNull(minimum),
  }));
}

function outcomesOf(book: Book, saleId: number, only: number | null): Outcome[] {
  const later = alias(t.outcome, 'later');
  const { kind, priceCents } = t.outcome;
  const { lotNumber, lotLetter } = t.lot;
  const rows = book.db
    .select({ lotNumber, lotLetter, kind, priceCents, buyerNo: t.buyer.buyerNo })
    .from(t.outcome)
    .innerJoin(t.lot, eq(t.lot.id, t.outcome.lotId))
    .innerJoin(t.seller, eq(t.seller.id, t.lot.sellerId))
    .leftJoin(later, eq(later.replacesId, t.outcome.id))
    .leftJoin(t.buyer, eq(t.buyer.id, t.outcome.buyerId))
    .where(and(eq(t.lot.saleId, saleId), isNull(later.id), ne(kind, 'reopened'), ofSeller(only)))
    .orderBy(asc(lotNumber), asc(lotLetter))
    .all();
  return rows.flatMap((row) => {
    if (row.kind === 'reopened') return [];
    const { buyerNo } = row;
    return [{ lotNo: lotNoOf(row), kind: row.kind, priceCents: centsOrNull(row.priceCents), buyerNo }];
  });
}

function chargesOf(book: Book, saleId: number, only: number | null): Charge[] {
  const voiding = alias(t.charge, 'voiding');
  const { kind, amountCents, how, note } = t.charge;
  const rows = book.db
    .select({ sellerNo: t.seller.sellerNo, kind, amountCents, how, note })
    .from(t.charge)
    .innerJoin(t.seller, eq(t.seller.id, t.charge.sellerId))
    .leftJoin(voiding, eq(voiding.voidsId, t.charge.id))
    .where(and(eq(t.seller.saleId, saleId), isNull(voiding.id), isNull(t.charge.voidsId), ofSeller(only)))
    .orderBy(asc(t.charge.id))
    .all();
  return rows.map((row) => ({ ...row, amountCents: cents(row.amountCents) }));
}

function paymentsOf(book: Book, saleId: number, only: number | null): Payment[] {
  const voiding = alias(t.payment, 'voiding');
  const { direction, method, amountCents, reference, paidAt } = t.payment;
  const rows = book.db
    .select({
      ...{ direction, method, amountCents, reference, paidAt },
      buyerNo: t.buyer.buyerNo,
      sellerNo: t.seller.sellerNo,
      personId: t.particulars.ref,
    })
    .from(t.payment)
    .leftJoin(t.buyer, eq(t.buyer.id, t.payment.buyerId))
    .leftJoin(t.seller, eq(t.seller.id, t.payment.sellerId))
    .leftJoin(t.particulars, and(eq(t.particulars.personId, t.payment.personId), eq(t.particulars.saleId, saleId)))
    .leftJoin(voiding, eq(voiding.voidsId, t.payment.id))
    .where(and(eq(t.payment.saleId, saleId), isNull(voiding.id), isNull(t.payment.voidsId), ofSeller(only)))
    .orderBy(asc(t.payment.id))
    .all();
  return rows.map((row) => ({ ...row, amountCents: cents(row.amountCents) }));
}

function centsOrNull(amount: number | null): Cents | null {
  return amount === null ? null : cents(amount);
}
