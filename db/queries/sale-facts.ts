/**
 * Reads all the facts of one sale into the shapes that the sums in `lib/` take: one read a table, no sum here.
 */
import { asc, eq, sql } from 'drizzle-orm';
import type {
  Buyer,
  By,
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
import { factsOfRow } from '#lib/field/fields.ts';
import { groupBy } from '#lib/group.ts';
import type { LotNo } from '#lib/lot-number.ts';
import { type Cents, cents, rate } from '#lib/money.ts';
import { RATE_FIELDS, SALE_FIELDS, TERM_FIELDS } from '#lib/sale/terms-fields.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import * as t from '../schema/index.ts';
import { type SaleRow, saleById } from './find.ts';
import { timeZoneOf } from './local-days.ts';
import { BOUGHT, kindOf, OF_LOTS, type Scope, scopedCells, scopedRows } from './scope.ts';

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

/** The payments and charges of a sale alone, for what is made from the money and asks for no lot. */
export function moneyFacts(book: Book, saleId: number): Pick<SaleFacts, 'payments' | 'charges'> {
  const of = { saleId, scope: null };
  return { payments: paymentsOf(book, of), charges: chargesOf(book, of) };
}

/** All the facts of whatever a scope takes in. */
export function factsOf(book: Book, saleId: number, scope: Scope): SaleFacts {
  const row = saleById(book, saleId);
  if (!row) throw new RangeError(`The book has no sale ${saleId}.`);
  const of = { saleId, scope };
  return {
    sale: saleOfRow(book, row),
    timeZone: timeZoneOf(book),
    goods: goodsOf(book, saleId),
    sellers: sellersOf(book, of),
    buyers: buyersOf(book, of),
    ...calledOf(book, of),
    charges: chargesOf(book, of),
    payments: paymentsOf(book, of),
  };
}

interface Of {
  readonly saleId: number;
  readonly scope: Scope;
}

export function saleOfRow(book: Book, row: SaleRow): Sale {
  const commission = factsOfRow(RATE_FIELDS, { member: row.commissionMemberPct, guest: row.commissionGuestPct });
  const commissionOverrides = overridesOf(book, row.id);
  return {
    ...factsOfRow(SALE_FIELDS, row),
    terms: { commission, commissionOverrides, ...factsOfRow(TERM_FIELDS, row) },
  };
}

function overridesOf(book: Book, saleId: number): Record<string, CommissionRates> {
  const { commissionOverride: own } = t;
  const find = book.prepared('commission overrides', (db) =>
    db
      .select()
      .from(own)
      .where(eq(own.saleId, sql.placeholder('saleId')))
      .orderBy(asc(own.goods))
      .prepare(),
  );
  const rows = find.all({ saleId });
  return Object.fromEntries(rows.map((row) => [row.goods, { member: rate(row.memberPct), guest: rate(row.guestPct) }]));
}

export function goodsOf(book: Book, saleId: number): Goods[] {
  const find = book.prepared('goods of sale', (db) =>
    db
      .select()
      .from(t.goods)
      .where(eq(t.goods.saleId, sql.placeholder('saleId')))
      .orderBy(asc(t.goods.id))
      .prepare(),
  );
  return find.all({ saleId }).map(({ goods, name, scientificName, by, exportTag, tagSpeciesCode, seasonLimit }) => ({
    ...{ goods, name, scientificName, by, exportTag, tagSpeciesCode, seasonLimit },
  }));
}

const BOUGHT_FROM = `seller.id IN (SELECT lot.seller_id FROM lot WHERE ${BOUGHT})`;

const PARTNERS = {
  name: 'facts: partners',
  by: { seller: OF_LOTS.seller, buyer: BOUGHT_FROM },
  text: `
    SELECT seller.seller_no AS sellerNo, particulars.ref AS personId, particulars.member_until AS memberUntil,
      partner.parts
    FROM seller JOIN partner ON partner.seller_id = seller.id
    JOIN particulars ON particulars.sale_id = seller.sale_id AND particulars.person_id = partner.person_id
    WHERE seller.sale_id = :saleId AND {scope} ORDER BY seller.seller_no, partner.position`,
};

function sellersOf(book: Book, of: Of): Seller[] {
  const rows = scopedRows<Partner & { readonly sellerNo: number }>(book, PARTNERS, of);
  const bySeller = groupBy(rows, ({ sellerNo }) => sellerNo);
  return [...bySeller].map(([sellerNo, own]) => ({ sellerNo, partners: own.map(({ sellerNo: _, ...one }) => one) }));
}

const BUYERS = {
  name: 'facts: buyers',
  by: { seller: '1', buyer: 'buyer.buyer_no = :buyerNo' },
  text: `
    SELECT buyer.buyer_no AS buyerNo, particulars.ref AS personId, buyer.licence_no AS licenceNo,
      buyer.tax_exempt AS taxExempt, buyer.exempt_no AS exemptNo, buyer.cleared
    FROM buyer JOIN particulars ON particulars.sale_id = buyer.sale_id AND particulars.person_id = buyer.person_id
    WHERE buyer.sale_id = :saleId AND {scope} ORDER BY buyer.buyer_no`,
};

type Flags<T, K extends keyof T> = Omit<T, K> & Readonly<Record<K, number>>;

function buyersOf(book: Book, of: Of): Buyer[] {
  const rows = scopedRows<Flags<Buyer, 'taxExempt' | 'cleared'>>(book, BUYERS, of);
  return rows.map((row) => ({ ...row, taxExempt: row.taxExempt === 1, cleared: row.cleared === 1 }));
}

/** Lots, each with the outcome that stands for it: one pass over both. A lot that was reopened has none. */
const LOTS = {
  name: 'facts: lots',
  by: OF_LOTS,
  text: `
    SELECT lot.lot_number, lot.lot_letter, lot."by", lot.count, lot.weight_thousandths, lot.size, lot.grade,
      lot.section, lot.minimum_cents, lot.donated, lot.note, seller.seller_no, goods.goods,
      outcome.kind, outcome.price_cents, buyer.buyer_no
    FROM lot JOIN seller ON seller.id = lot.seller_id JOIN goods ON goods.id = lot.goods_id
    LEFT JOIN outcome ON outcome.lot_id = lot.id AND outcome.kind <> 'reopened'
      AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id)
    LEFT JOIN buyer ON buyer.id = outcome.buyer_id
    WHERE lot.sale_id = :saleId AND {scope} ORDER BY lot.lot_number, lot.lot_letter`,
};

type LotCells = readonly [
  lotNumber: number,
  lotLetter: string,
  by: By,
  count: number | null,
  weightThousandths: number | null,
  size: string,
  grade: string,
  section: string,
  minimumCents: number | null,
  donated: number,
  note: string,
  sellerNo: number,
  goods: string,
  outcome: Outcome['kind'] | null,
  priceCents: number | null,
  buyerNo: number | null,
];

function calledOf(book: Book, of: Of): Pick<SaleFacts, 'lots' | 'outcomes'> {
  const lots: Lot[] = [];
  const outcomes: Outcome[] = [];
  for (const cells of scopedCells<LotCells>(book, LOTS, of)) {
    const lotNo = lotNoOf({ lotNumber: cells[0], lotLetter: cells[1] });
    lots.push(lotOf(lotNo, cells));
    const [kind, priceCents, buyerNo] = [cells[13], cells[14], cells[15]];
    if (kind !== null) outcomes.push({ lotNo, kind, priceCents: centsOrNull(priceCents), buyerNo });
  }
  return { lots, outcomes };
}

function lotOf(lotNo: LotNo, cells: LotCells): Lot {
  return {
    by: cells[2],
    count: cells[3],
    weightThousandths: cells[4],
    size: cells[5],
    grade: cells[6],
    section: cells[7],
    minimumCents: centsOrNull(cells[8]),
    donated: cells[9] === 1,
    note: cells[10],
    sellerNo: cells[11],
    goods: cells[12],
    lotNo,
  };
}

const CHARGES = {
  name: 'facts: charges',
  // A buyer has no charges: nobody asks.
  by: { seller: OF_LOTS.seller, buyer: '0' },
  text: `
    SELECT seller.seller_no AS sellerNo, charge.kind, charge.amount_cents AS amountCents, charge.how, charge.note
    FROM charge JOIN seller ON seller.id = charge.seller_id
    WHERE seller.sale_id = :saleId AND charge.voids_id IS NULL
      AND NOT EXISTS (SELECT 1 FROM charge voiding WHERE voiding.voids_id = charge.id) AND {scope}
    ORDER BY charge.id`,
};

function chargesOf(book: Book, of: Of): Charge[] {
  if (kindOf(of.scope) === 'buyer') return [];
  return scopedRows<Charge>(book, CHARGES, of).map((row) => ({ ...row, amountCents: cents(row.amountCents) }));
}

const PAYMENTS = {
  name: 'facts: payments',
  by: { seller: OF_LOTS.seller, buyer: 'buyer.buyer_no = :buyerNo' },
  text: `
    SELECT payment.direction, payment.method, payment.amount_cents AS amountCents, payment.reference,
      payment.paid_at AS paidAt, buyer.buyer_no AS buyerNo, seller.seller_no AS sellerNo, particulars.ref AS personId
    FROM payment LEFT JOIN buyer ON buyer.id = payment.buyer_id LEFT JOIN seller ON seller.id = payment.seller_id
    LEFT JOIN particulars ON particulars.sale_id = :saleId AND particulars.person_id = payment.person_id
    WHERE payment.sale_id = :saleId AND payment.voids_id IS NULL
      AND NOT EXISTS (SELECT 1 FROM payment voiding WHERE voiding.voids_id = payment.id) AND {scope}
    ORDER BY payment.id`,
};

function paymentsOf(book: Book, of: Of): Payment[] {
  return scopedRows<Payment>(book, PAYMENTS, of).map((row) => ({ ...row, amountCents: cents(row.amountCents) }));
}

function centsOrNull(amount: number | null): Cents | null {
  return amount === null ? null : cents(amount);
}
