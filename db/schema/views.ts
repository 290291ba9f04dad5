/**
 * What is in force now, as views: facts are never changed, so each of these leaves out what a later row replaced, voided
 * or retracted. Every query that asks for what is in force reads these and spells the condition nowhere else.
 */
import { and, eq, getTableColumns, isNotNull, isNull, ne, notExists, type SQL, sql } from 'drizzle-orm';
import { alias, QueryBuilder, type SQLiteColumn, type SQLiteTable, sqliteView } from 'drizzle-orm/sqlite-core';
import type { Cents } from '#lib/money/money.ts';
import type { Outcome, OutcomeKind } from '#lib/sale/facts.ts';
import { arrival, bankMark, deposit } from './bank.ts';
import { bid, handover, lot, outcome } from './lot.ts';
import { charge, dues, payment, taking } from './money.ts';
import { buyer, goods, seller } from './sale.ts';

const one = { found: sql<number>`1`.as('found') };
const builder = new QueryBuilder();

const laterOutcome = alias(outcome, 'later');
const replacing = builder.select(one).from(laterOutcome).where(eq(laterOutcome.replacesId, outcome.id));

/** The newest outcome of each lot that has one, whatever its kind: that of a reopened lot is `reopened`. */
export const newestOutcome = sqliteView('newest_outcome').as((qb) =>
  qb.select().from(outcome).where(notExists(replacing)),
);

/** The outcome in force of each called lot. A reopened lot is still to be called and has none. */
export const standingOutcome = sqliteView('standing_outcome').as((qb) =>
  qb
    .select()
    .from(outcome)
    .where(and(ne(outcome.kind, 'reopened'), notExists(replacing))),
);

const laterHandover = alias(handover, 'later');

/** Where each lot that ever left the hall is now: its newest handing over or coming back. */
export const newestHandover = sqliteView('newest_handover').as((qb) =>
  qb
    .select()
    .from(handover)
    .where(notExists(builder.select(one).from(laterHandover).where(eq(laterHandover.replacesId, handover.id)))),
);

/** That a row voids no other, and that none of `later`, which is the same table again, voids it. */
function isLive(table: Voidable, later: Voidable & SQLiteTable): SQL | undefined {
  return and(isNull(table.voidsId), notExists(builder.select(one).from(later).where(eq(later.voidsId, table.id))));
}

interface Voidable {
  readonly id: SQLiteColumn;
  readonly voidsId: SQLiteColumn;
}

/** Payments that were not voided, without the rows that void others. */
export const livePayment = sqliteView('live_payment').as((qb) =>
  qb
    .select()
    .from(payment)
    .where(isLive(payment, alias(payment, 'voiding'))),
);

/** Charges that were not voided, without the rows that void others. */
export const liveCharge = sqliteView('live_charge').as((qb) =>
  qb
    .select()
    .from(charge)
    .where(isLive(charge, alias(charge, 'voiding'))),
);

/** Takings that were not voided, without the rows that void others. */
export const liveTaking = sqliteView('live_taking').as((qb) =>
  qb
    .select()
    .from(taking)
    .where(isLive(taking, alias(taking, 'voiding'))),
);

/** Dues that were not taken back, without the rows that take others back. */
export const liveDues = sqliteView('live_dues').as((qb) =>
  qb
    .select()
    .from(dues)
    .where(isLive(dues, alias(dues, 'voiding'))),
);

/** Deposits that were not voided, without the rows that void others. */
export const liveDeposit = sqliteView('live_deposit').as((qb) =>
  qb
    .select()
    .from(deposit)
    .where(isLive(deposit, alias(deposit, 'voiding'))),
);

/** Money that arrived on the account, without what was voided and the rows that void. */
export const liveArrival = sqliteView('live_arrival').as((qb) =>
  qb
    .select()
    .from(arrival)
    .where(isLive(arrival, alias(arrival, 'voiding'))),
);

/** What is marked as standing on a statement of the bank. */
export const liveBankMark = sqliteView('live_bank_mark').as((qb) =>
  qb
    .select()
    .from(bankMark)
    .where(isLive(bankMark, alias(bankMark, 'voiding'))),
);

const retraction = alias(bid, 'retraction');

/** Bids that still count: retracting a bid also ends what the same buyer bid on the lot before it. */
export const liveBid = sqliteView('live_bid').as((qb) =>
  qb
    .select()
    .from(bid)
    .where(
      and(
        isNull(bid.retractsId),
        notExists(
          builder
            .select(one)
            .from(retraction)
            .where(
              and(
                eq(retraction.lotId, bid.lotId),
                eq(retraction.buyerId, bid.buyerId),
                isNotNull(retraction.retractsId),
                sql`(${retraction.retractsId} = ${bid.id} OR (${retraction.retractsId} > ${bid.id} AND NOT ${retraction.moved}))`,
              ),
            ),
        ),
      ),
    ),
);

/**
 * Rule 1 of docs/exchange.md in whole numbers: the price times the quantity, rounded half up to the cent. The price is
 * taken apart so that no product leaves 64 bits. `lotAmount` of lib/ is the sum itself; a law holds this to it.
 */
const amountCents = sql<Cents | null>`CASE WHEN ${standingOutcome.kind} <> 'sold' THEN NULL ELSE CASE ${lot.by} WHEN 'lot' THEN ${standingOutcome.priceCents}
  WHEN 'piece' THEN ${standingOutcome.priceCents} * ${lot.count}
  ELSE ${standingOutcome.priceCents} / 1000 * ${lot.weightThousandths}
    + (${standingOutcome.priceCents} % 1000 * ${lot.weightThousandths} * 2 + 1000) / 2000 END END`;

/** What each called lot brought, null where it was not sold: for counting and adding up a whole sale inside SQLite. */
export const calledAmount = sqliteView('called_amount').as((qb) =>
  qb
    .select({
      lotId: standingOutcome.lotId,
      outcomeId: sql<number>`${standingOutcome.id}`.as('outcome_id'),
      saleId: lot.saleId,
      kind: standingOutcome.kind,
      buyerId: standingOutcome.buyerId,
      amountCents: amountCents.as('amount_cents'),
    })
    .from(lot)
    // A cross join keeps SQLite to this order: from the lots of the sale to their outcomes, each in its covering index.
    .crossJoin(standingOutcome)
    .where(eq(standingOutcome.lotId, lot.id)),
);

/** Each lot with what is said of it elsewhere: whose it is, its goods, its outcome in force and who bought it. */
export const lotNow = sqliteView('lot_now').as((qb) =>
  qb
    .select({
      ...getTableColumns(lot),
      sellerNo: seller.sellerNo,
      goods: goods.goods,
      goodsName: sql<string>`${goods.name}`.as('goods_name'),
      exportTag: goods.exportTag,
      outcomeId: sql<number | null>`${standingOutcome.id}`.as('outcome_id'),
      outcome: sql<OutcomeKind | null>`${standingOutcome.kind}`.as('outcome'),
      fate: sql<Outcome['fate'] | null>`${standingOutcome.fate}`.as('fate'),
      priceCents: standingOutcome.priceCents,
      buyerId: standingOutcome.buyerId,
      buyerNo: sql<number | null>`${buyer.buyerNo}`.as('buyer_no'),
    })
    .from(lot)
    .innerJoin(seller, eq(seller.id, lot.sellerId))
    .innerJoin(goods, eq(goods.id, lot.goodsId))
    .leftJoin(standingOutcome, eq(standingOutcome.lotId, lot.id))
    .leftJoin(buyer, eq(buyer.id, standingOutcome.buyerId)),
);
