/** What was banked and what waits, and every entry of the bank account with its mark. */
import { and, asc, eq, isNotNull, isNull, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { rowsBy } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { dayIn } from '#db/sale/queries.ts';
import {
  arrival,
  buyer,
  deposit,
  depositItem,
  journalEntry,
  liveBankMark,
  liveDeposit,
  livePayment,
  particulars,
  payment,
  posting,
  sale,
  seller,
} from '#db/schema/index.ts';
import { ACCOUNTS, type EntryKind } from '#lib/account/account.ts';
import type { Arrival } from '#lib/bank/arrival.ts';
import type { Deposit, TakenCheck } from '#lib/bank/deposit.ts';
import type { BankEntry } from '#lib/bank/reconcile.ts';
import { paidBy } from '#lib/buyer/buyer.ts';
import { pick } from '#lib/field/fields.ts';
import { addCents, type Cents, subtractCents, sumOf } from '#lib/money/money.ts';
import { lower } from '#lib/settlement/spelling.ts';

const findBanked = query(({ db }) =>
  db
    .select({ depositId: liveDeposit.id })
    .from(depositItem)
    .innerJoin(liveDeposit, eq(liveDeposit.id, depositItem.depositId))
    .where(equals(depositItem.paymentId, 'paymentId')),
);

/** The deposit that a check is in, or undefined. A voided one counts no more. */
export function bankedIn(book: Book, paymentId: number): number | undefined {
  return findBanked(book).get({ paymentId })?.depositId;
}

const checkColumns = {
  paymentId: payment.id,
  ...pick(payment, ['reference', 'amountCents', 'paidAt']),
  buyerNo: buyer.buyerNo,
  sellerNo: seller.sellerNo,
  name: particulars.name,
};

/** Checks that were taken in, with the particulars of whose they are; a seller number of partners has no one name. */
const takenChecks = query(({ db }) =>
  db
    .select({ ...checkColumns, ...{ voidsId: payment.voidsId } })
    .from(payment)
    .leftJoin(buyer, eq(buyer.id, payment.buyerId))
    .leftJoin(seller, eq(seller.id, payment.sellerId))
    .leftJoin(
      particulars,
      and(
        eq(particulars.saleId, payment.saleId),
        eq(particulars.personId, sql`coalesce(${payment.personId}, ${buyer.personId})`),
      ),
    )
    .where(
      and(
        equals(payment.saleId, 'saleId'),
        eq(payment.direction, 'in'),
        eq(payment.method, 'check'),
        isNull(payment.voidsId),
      ),
    )
    .orderBy(asc(payment.id)),
);

function checksTaken(book: Book, saleId: number): TakenCheck[] {
  return takenChecks(book)
    .all({ saleId })
    .map(({ buyerNo, sellerNo, name, paidAt, voidsId: _voids, ...check }) => {
      const who = buyerNo !== null ? `buyer ${buyerNo}` : sellerNo === null ? 'dues' : `seller ${sellerNo}`;
      const by = lower(paidBy({ method: 'check', reference: check.reference }));
      return { ...check, who, by, name: name ?? who, takenOn: dayIn(book, paidAt) };
    });
}

const goodChecks = query(({ db }) =>
  db
    .select({ paymentId: livePayment.id })
    .from(livePayment)
    .where(and(equals(livePayment.saleId, 'saleId'), eq(livePayment.direction, 'in'), eq(livePayment.method, 'check'))),
);

const banked = query(({ db }) =>
  db
    .select({ paymentId: depositItem.paymentId })
    .from(depositItem)
    .innerJoin(liveDeposit, eq(liveDeposit.id, depositItem.depositId))
    .where(equals(liveDeposit.saleId, 'saleId')),
);

/** The checks of a sale that were taken in, are not void, and are in no deposit. */
export function checksWaiting(book: Book, saleId: number): TakenCheck[] {
  const ids = (find: typeof goodChecks) =>
    new Set(
      find(book)
        .all({ saleId })
        .map(({ paymentId }) => paymentId),
    );
  const [good, gone] = [ids(goodChecks), ids(banked)];
  return checksTaken(book, saleId).filter(({ paymentId }) => good.has(paymentId) && !gone.has(paymentId));
}

/** The checks of a sale that were taken in and are not void, banked or not. */
export function checksGood(book: Book, saleId: number): TakenCheck[] {
  const good = new Set(
    goodChecks(book)
      .all({ saleId })
      .map(({ paymentId }) => paymentId),
  );
  return checksTaken(book, saleId).filter(({ paymentId }) => good.has(paymentId));
}

const voiding = alias(deposit, 'voiding');
const voidingArrival = alias(arrival, 'voiding');

const findDeposits = query(({ db }) =>
  db
    .select({
      depositId: deposit.id,
      ...pick(deposit, ['day', 'cashCents']),
      voided: voiding.reason,
    })
    .from(deposit)
    .leftJoin(voiding, eq(voiding.voidsId, deposit.id))
    .where(and(equals(deposit.saleId, 'saleId'), isNull(deposit.voidsId)))
    .orderBy(asc(deposit.id)),
);

export const itemsOfDeposit = rowsBy(depositItem, depositItem.id, 'depositId');

/** The deposits of a sale, the oldest first, the voided ones too. */
export function depositsOf(book: Book, saleId: number): Deposit[] {
  const rows = findDeposits(book).all({ saleId });
  const checks = rows.length === 0 ? [] : checksTaken(book, saleId);
  const byId = new Map(checks.map((one) => [one.paymentId, one]));
  return rows.map((row) => {
    const own = itemsOfDeposit(book, row.depositId).flatMap(({ paymentId }) => byId.get(paymentId) ?? []);
    return { ...row, checks: own, totalCents: addCents(row.cashCents, sumOf(own, 'amountCents')) };
  });
}

/** What the deposits of a sale that stand come to, without the checks of them that came back. */
export function depositedCents(book: Book, saleId: number): Cents {
  const stand = depositsOf(book, saleId).filter(({ voided }) => voided === null);
  const good = new Set(checksGood(book, saleId).map(({ paymentId }) => paymentId));
  const checks = stand.flatMap((one) => one.checks.filter(({ paymentId }) => good.has(paymentId)));
  return addCents(sumOf(stand, 'cashCents'), sumOf(checks, 'amountCents'));
}

const findArrivals = query(({ db }) =>
  db
    .select({
      arrivalId: arrival.id,
      ...pick(arrival, ['method', 'day', 'amountCents', 'feeCents']),
      voided: voidingArrival.reason,
    })
    .from(arrival)
    .leftJoin(voidingArrival, eq(voidingArrival.voidsId, arrival.id))
    .where(and(equals(arrival.saleId, 'saleId'), isNull(arrival.voidsId)))
    .orderBy(asc(arrival.id)),
);

/** What arrived on the account of the card money and other money of a sale, the voided too; the oldest first. */
export function arrivalsOf(book: Book, saleId: number): Arrival[] {
  return findArrivals(book).all({ saleId });
}

/** What came to the bank by the arrivals of a sale that stand. */
export function arrivedCents(book: Book, saleId: number): Cents {
  const stand = arrivalsOf(book, saleId).filter(({ voided }) => voided === null);
  return subtractCents(sumOf(stand, 'amountCents'), sumOf(stand, 'feeCents'));
}

const findMark = query(({ db }) => db.select().from(liveBankMark).where(equals(liveBankMark.entryId, 'entryId')));

/** The mark of an entry, or undefined. */
export function markOf(book: Book, entryId: number) {
  return findMark(book).get({ entryId });
}

export interface BankEntryRow extends BankEntry {
  readonly sale: string;
}

const bankPostings = query(({ db }) =>
  db
    .select({
      entryId: journalEntry.id,
      ...pick(journalEntry, ['day', 'memo', 'reversesId']),
      amountCents: posting.amountCents,
      clearedOn: liveBankMark.day,
      sale: sale.name,
    })
    .from(posting)
    .innerJoin(journalEntry, eq(journalEntry.id, posting.entryId))
    .innerJoin(sale, eq(sale.id, journalEntry.saleId))
    .leftJoin(liveBankMark, eq(liveBankMark.entryId, journalEntry.id))
    .where(eq(posting.account, ACCOUNTS.bank))
    .orderBy(asc(journalEntry.day), asc(journalEntry.id)),
);

const ofDeposit = alias(journalEntry, 'of_deposit');

/** The reversals of checks that were banked, each with the entry of the deposit that the check was in. */
const cameBack = query(({ db }) =>
  db
    .select({ entryId: journalEntry.id, withId: ofDeposit.id })
    .from(journalEntry)
    .innerJoin(depositItem, eq(depositItem.paymentId, journalEntry.sourceId))
    .innerJoin(liveDeposit, eq(liveDeposit.id, depositItem.depositId))
    .innerJoin(
      ofDeposit,
      and(eq(ofDeposit.kind, 'deposit'), eq(ofDeposit.sourceId, liveDeposit.id), isNull(ofDeposit.reversesId)),
    )
    .where(and(eq(journalEntry.kind, 'payment'), isNotNull(journalEntry.reversesId))),
);

/** Every entry of the bank account over all sales, by day: the association has one account. */
export function bankEntries(book: Book): BankEntryRow[] {
  const depositOf = new Map(
    cameBack(book)
      .all()
      .map(({ entryId, withId }) => [entryId, withId]),
  );
  return bankPostings(book)
    .all()
    .map((row) => ({ ...row, withId: depositOf.get(row.entryId) ?? null }));
}

const clearedSource = query(({ db }) =>
  db
    .select({ day: liveBankMark.day })
    .from(liveBankMark)
    .innerJoin(journalEntry, eq(journalEntry.id, liveBankMark.entryId))
    .where(
      and(
        equals(journalEntry.kind, 'kind'),
        equals(journalEntry.sourceId, 'sourceId'),
        isNull(journalEntry.reversesId),
        isNotNull(liveBankMark.day),
      ),
    )
    .limit(1),
);

/** The day on which what a row moved stands on a statement of the bank, or null. */
export function clearedDay(book: Book, kind: EntryKind, sourceId: number): string | null {
  return clearedSource(book).get({ kind, sourceId })?.day ?? null;
}
