/** What buyers owe, added up inside SQLite for all of them at once, and what is left of the limits of those with one. */
import { and, count, desc, eq, inArray, isNotNull, lt, type SQL, sql } from 'drizzle-orm';
import { QueryBuilder } from 'drizzle-orm/sqlite-core';
import { type BuyerRow, personByRef, rowsBy, type SaleRow, saleById } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { saleOfRow } from '#db/sale/facts.ts';
import {
  buyer,
  calledAmount,
  livePayment,
  newestHandover,
  sale as saleTable,
  standingOutcome,
} from '#db/schema/index.ts';
import { decideCarry, limitInWords } from '#lib/buyer/buyer.ts';
import { WALK_IN_REF } from '#lib/buyer/walk-in.ts';
import { type Bill, billOfSums } from '#lib/invoice/invoice.ts';
import { Decimal } from '#lib/money/decimal.ts';
import { type Cents, cents } from '#lib/money/money.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Terms } from '#lib/sale/facts.ts';
import { leftOf, type PaidSplit, splitPaid } from '#lib/seller/account.ts';

const given = sql.placeholder;
const builder = new QueryBuilder();

/** What a buyer bought, paid and owes, without the lots themselves. All money is whole cents. */
export interface AccountSums extends Bill, PaidSplit {
  readonly lots: number;
  /** How many of the lots still lie on the table. */
  readonly lotsHere: number;
  readonly owingCents: Cents;
}

/**
 * The premium of one lot as `percentOf` of lib/ has it: a percentage of four places, rounded half up, in whole numbers
 * that stay within 64 bits. `rate` is in ten thousandths. A law holds the sums to those of lib/.
 */
const premiumCents = sql<number>`${calledAmount.amountCents} / 1000000 * ${rate()}
  + (${calledAmount.amountCents} % 1000000 * ${rate()} * 2 + 1000000) / 2000000`;

/** A number of JavaScript's arrives as a float, with which SQLite would not divide whole. */
function rate() {
  return sql`CAST(${given('rate')} AS INTEGER)`;
}

const boughtSums = (which: SQL) =>
  query(({ db }) =>
    db
      .select({
        buyerId: calledAmount.buyerId,
        lots: count(),
        amountCents: sql<number>`sum(${calledAmount.amountCents})`,
        premiumCents: sql<number>`sum(${premiumCents})`,
        gone: count(newestHandover.id),
      })
      .from(calledAmount)
      .leftJoin(newestHandover, and(eq(newestHandover.lotId, calledAmount.lotId), eq(newestHandover.kind, 'handed')))
      .where(and(eq(calledAmount.kind, 'sold'), which))
      .groupBy(calledAmount.buyerId),
  );

const paidSums = (which: SQL) =>
  query(({ db }) =>
    db
      .select({
        buyerId: livePayment.buyerId,
        method: livePayment.method,
        direction: livePayment.direction,
        amountCents: sql<Cents>`sum(${livePayment.amountCents})`,
      })
      .from(livePayment)
      .where(which)
      .groupBy(livePayment.buyerId, livePayment.method, livePayment.direction),
  );

const withLimit = builder
  .select({ id: buyer.id })
  .from(buyer)
  .where(and(equals(buyer.saleId, 'saleId'), isNotNull(buyer.limitCents)));
const theBuyer = builder.select({ id: buyer.id }).from(buyer).where(equals(buyer.id, 'buyerId'));

/** The lots that some buyers bought: from their outcomes on, so that no other lot of the sale is read. */
function boughtBy(buyers: typeof withLimit): SQL {
  const bought = builder
    .select({ lotId: standingOutcome.lotId })
    .from(standingOutcome)
    .where(and(inArray(standingOutcome.buyerId, buyers), eq(standingOutcome.kind, 'sold')));
  return inArray(calledAmount.lotId, bought);
}

const ofSale = {
  bought: boughtSums(equals(calledAmount.saleId, 'saleId')),
  paid: paidSums(and(equals(livePayment.saleId, 'saleId'), isNotNull(livePayment.buyerId)) as SQL),
};
const ofLimited = { bought: boughtSums(boughtBy(withLimit)), paid: paidSums(inArray(livePayment.buyerId, withLimit)) };
const ofOne = { bought: boughtSums(boughtBy(theBuyer)), paid: paidSums(equals(livePayment.buyerId, 'buyerId')) };

function accountsOf(
  book: Book,
  terms: Terms,
  find: typeof ofSale,
  values: Readonly<Record<string, number>>,
): (row: BuyerRow) => AccountSums {
  const rate = new Decimal(terms.premiumPct).times(10_000).toNumber();
  const boughtRows = find.bought(book).all({ ...values, rate });
  const bought = new Map(boughtRows.map((row) => [row.buyerId, row]));
  const paid = groupBy(find.paid(book).all(values), ({ buyerId }) => buyerId);
  return ({ id, taxExempt }) => {
    const { lots, gone, ...sums } = bought.get(id) ?? { lots: 0, gone: 0, amountCents: 0, premiumCents: 0 };
    const bill = billOfSums(
      { amountCents: cents(sums.amountCents), premiumCents: cents(sums.premiumCents) },
      { terms, taxExempt },
    );
    const split = splitPaid(paid.get(id) ?? []);
    return { ...bill, lots, lotsHere: lots - gone, ...split, owingCents: leftOf(bill.totalCents, split) };
  };
}

/** The account of each buyer of a sale. */
export function accountSums(book: Book, sale: SaleRow): (row: BuyerRow) => AccountSums {
  return accountsOf(book, saleOfRow(book, sale).terms, ofSale, { saleId: sale.id });
}

/** What one buyer owes: the total of rule 8 less what was paid. */
export function owingOf(book: Book, sale: SaleRow, row: BuyerRow): Cents {
  const { terms } = saleOfRow(book, sale);
  return accountsOf(book, terms, ofOne, { buyerId: row.id })(row).owingCents;
}

const findLimited = query(({ db }) =>
  db
    .select()
    .from(buyer)
    .where(and(equals(buyer.saleId, 'saleId'), isNotNull(buyer.limitCents))),
);

/** What is left of each limit, by buyer number, in words; without those who have none. Most sales set none at all. */
export function limitsInWords(book: Book, saleId: number): Map<number, string> {
  const rows = findLimited(book).all({ saleId });
  const sale = rows.length > 0 ? saleById(book, saleId) : undefined;
  if (!sale) return new Map();
  const { terms } = saleOfRow(book, sale);
  const accountOf = accountsOf(book, terms, ofLimited, { saleId });
  return new Map(rows.map((row) => [row.buyerNo, limitInWords(cents(row.limitCents ?? 0), accountOf(row).owingCents)]));
}

/** The newest sale held before this one that has buyers. */
export function lastSaleWithBuyers(book: Book, sale: Pick<SaleRow, 'heldOn'>): number | undefined {
  const row = book.db
    .select({ id: saleTable.id })
    .from(saleTable)
    .innerJoin(buyer, eq(buyer.saleId, saleTable.id))
    .where(lt(saleTable.heldOn, sale.heldOn))
    .orderBy(desc(saleTable.heldOn), desc(saleTable.id))
    .limit(1)
    .get();
  return row?.id;
}

/** The buyers of a sale by number. */
export const buyersOfSale = rowsBy(buyer, buyer.buyerNo, 'saleId');

/** Those who come again under a name: a walk-in of last year is nobody's number this year. */
export function namedBuyersOf(book: Book, saleId: number): BuyerRow[] {
  const walkIn = personByRef(book, WALK_IN_REF)?.id;
  return buyersOfSale(book, saleId).filter(({ personId }) => personId !== walkIn);
}

export interface LastBuyers {
  /** The sale they come from, by name and day. */
  readonly from: string;
  /** How many would get their number again. */
  readonly count: number;
}

/** Who could be registered again, or null where there is nobody. */
export function lastBuyers(book: Book, sale: SaleRow): LastBuyers | null {
  const fromId = sale.stage === 'closed' ? undefined : lastSaleWithBuyers(book, sale);
  const from = fromId === undefined ? undefined : saleById(book, fromId);
  if (!from) return null;
  const decided = decideCarry(namedBuyersOf(book, from.id), buyersOfSale(book, sale.id));
  return decided.ok ? { from: `${from.name}, ${from.heldOn}`, count: decided.value.registered.length } : null;
}
