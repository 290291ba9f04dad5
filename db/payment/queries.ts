/** The checks of a sale by their numbers, each with whose it is, what it pays, and whether it is void. */
import { and, asc, eq, isNull } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { bankedIn, clearedDay } from '#db/bank/queries.ts';
import { rowBy, type SaleRow } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { isPaymentFrozen, timeZoneOf } from '#db/sale/queries.ts';
import { particulars, payment, person, seller, sellerCheck, settlement } from '#db/schema/index.ts';
import { localDay } from '#lib/date/date.ts';
import { pick } from '#lib/field/fields.ts';
import { showMoney } from '#lib/money/money.ts';
import type { CheckEntry } from '#lib/payment/check-papers.ts';
import type { AtBank } from '#lib/payment/decide-payment.ts';

export const paymentById = rowBy(payment, 'id');
export const paymentThatVoids = rowBy(payment, 'voidsId');

/** How far a payment by check has come at the bank. */
export function bankFacts(book: Book, paymentId: number): AtBank {
  return { deposit: bankedIn(book, paymentId) ?? null, clearedOn: clearedDay(book, 'payment', paymentId) };
}

const voiding = alias(payment, 'voiding');
const later = alias(sellerCheck, 'later');
const earlier = alias(sellerCheck, 'earlier');

export interface CheckRow extends CheckEntry {
  readonly checkId: number;
  readonly paymentId: number;
}

const findChecks = query(({ db }) =>
  db
    .select({
      checkId: sellerCheck.id,
      ...pick(sellerCheck, ['paymentId', 'number']),
      sellerNo: seller.sellerNo,
      personId: particulars.ref,
      ...pick(particulars, ['name', 'payee', 'street', 'city', 'region', 'postcode']),
      ...pick(payment, ['amountCents', 'paidAt']),
      sheetNumber: settlement.number,
      voidedAt: voiding.paidAt,
      voidReason: voiding.reason,
      replacedBy: later.number,
      replaces: earlier.number,
    })
    .from(sellerCheck)
    .innerJoin(payment, eq(payment.id, sellerCheck.paymentId))
    .innerJoin(seller, eq(seller.id, payment.sellerId))
    .innerJoin(person, eq(person.id, payment.personId))
    .innerJoin(particulars, and(eq(particulars.personId, person.id), eq(particulars.saleId, sellerCheck.saleId)))
    .innerJoin(settlement, eq(settlement.id, sellerCheck.settlementId))
    .leftJoin(voiding, eq(voiding.voidsId, payment.id))
    .leftJoin(later, eq(later.replacesId, sellerCheck.id))
    .leftJoin(earlier, eq(earlier.id, sellerCheck.replacesId))
    .where(equals(sellerCheck.saleId, 'saleId'))
    .orderBy(asc(sellerCheck.number)),
);

export function checksOfSale(book: Book, saleId: number): CheckRow[] {
  const timeZone = timeZoneOf(book);
  return findChecks(book)
    .all({ saleId })
    .map(({ paidAt, voidedAt, ...row }) => ({
      ...row,
      paidOn: localDay(paidAt, timeZone),
      voidedOn: voidedAt === null ? null : localDay(voidedAt, timeZone),
    }));
}

/** Money to or from a seller number that is no check of the register. */
export interface PaidByHand extends Pick<typeof payment.$inferSelect, 'direction' | 'method' | 'reference' | 'paidAt'> {
  readonly paymentId: number;
  readonly amount: string;
  /** Empty where no partner was named. */
  readonly name: string;
  /** Why it was voided, or null where it stands. */
  readonly voided: string | null;
  /** No closing report counts it, so that it can be voided. */
  readonly voidable: boolean;
}

const findByHand = query(({ db }) =>
  db
    .select({
      paymentId: payment.id,
      ...pick(payment, ['direction', 'method', 'reference', 'amountCents', 'paidAt', 'line']),
      name: particulars.name,
      voided: voiding.reason,
    })
    .from(seller)
    .innerJoin(payment, eq(payment.sellerId, seller.id))
    .leftJoin(particulars, and(eq(particulars.personId, payment.personId), eq(particulars.saleId, payment.saleId)))
    .leftJoin(sellerCheck, eq(sellerCheck.paymentId, payment.id))
    .leftJoin(voiding, eq(voiding.voidsId, payment.id))
    .where(
      and(
        ...[equals(seller.saleId, 'saleId'), equals(seller.sellerNo, 'sellerNo')],
        ...[isNull(payment.voidsId), isNull(sellerCheck.id)],
      ),
    )
    .orderBy(asc(payment.id)),
);

export function paidByHand(book: Book, sale: Pick<SaleRow, 'id' | 'stage'>, sellerNo: number): PaidByHand[] {
  const rows = findByHand(book).all({ saleId: sale.id, sellerNo });
  return rows.map(({ amountCents, name, line, ...row }) => ({
    ...{ ...row, amount: showMoney(amountCents), name: name ?? '' },
    voidable: row.voided === null && !isPaymentFrozen(book, sale, { line, method: row.method }),
  }));
}
