/**
 * What stood when a payment was recorded, for its receipt or stub: the payments of the same party before it, what a
 * buyer had bought by then, and the sheet of then. All goes by the order of the log: nothing later changes it.
 */
import { and, asc, desc, eq, lt, lte, notExists, sql } from 'drizzle-orm';
import { alias, QueryBuilder } from 'drizzle-orm/sqlite-core';
import { buyerById, particularsOf, rowBy, saleById, sellerById } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { saleOfRow } from '#db/sale/facts.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { invoice, log, lot, outcome, particulars, payment, sellerCheck, settlement } from '#db/schema/index.ts';
import { peopleIn, sheetsOfSeller } from '#db/settlement/sheets.ts';
import { localDay, timeInWords } from '#lib/date/date.ts';
import { pick } from '#lib/field/fields.ts';
import { billOfSums, premiumOf } from '#lib/invoice/invoice.ts';
import type { InvoicePaper } from '#lib/invoice/model.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { type Cents, sumCents } from '#lib/money/money.ts';
import { buyerLeft, type EarlierPayment } from '#lib/payment/paid-so-far.ts';
import type { SellerReceiptPayment } from '#lib/payment/seller-receipt.ts';
import { type PaidSplit, sharesOf, splitPaid } from '#lib/seller/account.ts';
import { addressLines } from '#lib/settlement/spelling.ts';

const given = sql.placeholder;
const voiding = alias(payment, 'voiding');

export const paymentRow = rowBy(payment, 'id');
const paymentVoiding = rowBy(payment, 'voidsId');
const checkOfPayment = rowBy(sellerCheck, 'paymentId');
const logLine = rowBy(log, 'seq');

type PaymentRow = NonNullable<ReturnType<typeof paymentRow>>;

/** Who recorded a payment, and why it was voided where it was. */
export function recordedAs(book: Book, { id, line }: PaymentRow): { worker: string; voided: string | null } {
  return { worker: logLine(book, line)?.worker ?? '', voided: paymentVoiding(book, id)?.reason ?? null };
}

const findBefore = (party: typeof payment.buyerId | typeof payment.sellerId) =>
  query(({ db }) =>
    db
      .select({
        paymentId: payment.id,
        ...pick(payment, ['direction', 'method', 'reference', 'amountCents', 'paidAt']),
        personId: particulars.ref,
        voidedBy: voiding.id,
        voids: payment.voidsId,
      })
      .from(payment)
      .leftJoin(particulars, and(eq(particulars.saleId, payment.saleId), eq(particulars.personId, payment.personId)))
      .leftJoin(voiding, eq(voiding.voidsId, payment.id))
      .where(and(eq(party, given('partyId')), lt(payment.id, given('paymentId'))))
      .orderBy(asc(payment.id)),
  );

const buyersBefore = findBefore(payment.buyerId);
const sellersBefore = findBefore(payment.sellerId);

/** The payments of the same party that stood when this one was recorded: one that was voided later stood then. */
function paidBefore(book: Book, row: Pick<PaymentRow, 'id' | 'buyerId' | 'sellerId'>): EarlierPayment[] {
  const { id: paymentId, buyerId, sellerId } = row;
  const timeZone = timeZoneOf(book);
  const rows = (buyerId === null ? sellersBefore : buyersBefore)(book).all({ partyId: buyerId ?? sellerId, paymentId });
  return rows
    .filter(({ voids, voidedBy }) => voids === null && (voidedBy === null || voidedBy > paymentId))
    .map(({ paidAt, voidedBy: _, voids: __, ...one }) => ({ ...one, paidOn: localDay(paidAt, timeZone) }));
}

/** The same of the payment that a check is. */
export function paidBeforeCheck(book: Book, paymentId: number): EarlierPayment[] {
  const row = paymentRow(book, paymentId);
  return row ? paidBefore(book, row) : [];
}

const laterOutcome = alias(outcome, 'later');

const findBought = query(({ db }) =>
  db
    .select({
      outcomeId: outcome.id,
      priceCents: outcome.priceCents,
      ...pick(lot, ['by', 'count', 'weightThousandths']),
    })
    .from(outcome)
    .innerJoin(lot, eq(lot.id, outcome.lotId))
    .where(
      and(
        ...[equals(outcome.buyerId, 'buyerId'), eq(outcome.kind, 'sold'), lte(outcome.line, given('line'))],
        notExists(
          new QueryBuilder()
            .select({ id: laterOutcome.id })
            .from(laterOutcome)
            .where(and(eq(laterOutcome.replacesId, outcome.id), lte(laterOutcome.line, given('line')))),
        ),
      ),
    )
    .orderBy(asc(outcome.id)),
);

const findInvoices = query(({ db }) =>
  db
    .select(pick(invoice, ['number', 'line', 'model']))
    .from(invoice)
    .where(equals(invoice.buyerId, 'buyerId'))
    .orderBy(asc(invoice.number)),
);

export interface BuyerThen extends Pick<PaidSplit, 'feeCents' | 'givenUpCents'> {
  readonly invoiceNumber: number | null;
  readonly correctedBy: number | null;
  readonly leftCents: Cents;
}

/** How a buyer stood once this payment was in. An invoice that said what was bought by then is believed as it is frozen. */
export function buyerThen(book: Book, row: PaymentRow & { readonly buyerId: number }): BuyerThen {
  const { buyerId, line, direction, amountCents } = row;
  const invoices = findInvoices(book).all({ buyerId });
  const then = invoices.findLast((one) => one.line < line);
  const newest = invoices.at(-1);
  const bought = findBought(book).all({ buyerId, line });
  const billed = then && findBought(book).all({ buyerId, line: then.line });
  const same = billed && String(billed.map(idOf)) === String(bought.map(idOf));
  const totalCents = same ? (JSON.parse(then.model) as InvoicePaper).totals.totalCents : billOf(book, row, bought);
  const earlier = paidBefore(book, row);
  const { feeCents, givenUpCents } = splitPaid([...earlier, row]);
  return {
    ...{ feeCents, givenUpCents },
    invoiceNumber: then?.number ?? null,
    correctedBy: then && newest && newest.number !== then.number ? newest.number : null,
    leftCents: buyerLeft(totalCents, { direction, amountCents, earlier }),
  };
}

type Bought = ReturnType<ReturnType<typeof findBought>['all']>;
const idOf = ({ outcomeId }: Bought[number]) => outcomeId;

/** Sum 8 over what had been bought by then. */
function billOf(book: Book, { saleId, buyerId }: PaymentRow & { readonly buyerId: number }, bought: Bought): Cents {
  const [sale, who] = [saleById(book, saleId), buyerById(book, buyerId)];
  if (!sale || !who) throw new RangeError(`buyer ${buyerId} is at no sale`);
  const { terms } = saleOfRow(book, sale);
  const amounts = bought.flatMap(({ priceCents, ...measured }) =>
    priceCents === null ? [] : [lotAmount(priceCents, measured)],
  );
  const premiumCents = sumCents(amounts.map((amount) => premiumOf(amount, terms)));
  const sums = { amountCents: sumCents(amounts), premiumCents };
  return billOfSums(sums, { terms, taxExempt: who.taxExempt }).totalCents;
}

const findSheets = query(({ db }) =>
  db
    .select(pick(settlement, ['number', 'line']))
    .from(settlement)
    .where(equals(settlement.sellerId, 'sellerId'))
    .orderBy(desc(settlement.number)),
);

/**
 * A payment to or from a seller number as its receipt says it; undefined where there is none, where the row takes
 * another back, and for a check of the register, which has its stub.
 */
export function sellerPayment(book: Book, paymentId: number): (SellerReceiptPayment & { saleId: number }) | undefined {
  const row = paymentRow(book, paymentId);
  const seller = row?.sellerId == null ? undefined : sellerById(book, row.sellerId);
  if (!row || !seller || row.voidsId !== null || checkOfPayment(book, paymentId)) return undefined;
  const { saleId, direction, method, amountCents, reference, paidAt, line } = row;
  const timeZone = timeZoneOf(book);
  const { sellerNo } = seller;
  const behind = peopleIn(book, saleId, { sellerNo });
  const ref = particularsRef(book, row);
  const sheets = findSheets(book).all({ sellerId: seller.id });
  const then = sheets.find((one) => one.line < line);
  const newest = sheets[0];
  const sheet = sheetsOfSeller(book, saleId, sellerNo).find(({ number }) => number === then?.number);
  return {
    ...{ saleId, paymentId, sellerNo, direction, method, amountCents, reference, personId: ref },
    people: behind
      .filter(({ personId }) => ref === null || personId === ref)
      .map((one) => ({ name: one.name, address: addressLines(one) })),
    paidOn: localDay(paidAt, timeZone),
    paidTime: timeInWords(paidAt, timeZone),
    ...recordedAs(book, row),
    sheet: sheet ? { number: sheet.number, shares: sharesOf(sheet.sheet) } : null,
    correctedBy: then && newest && newest.number !== then.number ? newest.number : null,
    earlier: paidBefore(book, row),
  };
}

/** By the reference that the sale has of the person whom the payment names; null where it names nobody. */
function particularsRef(book: Book, { saleId, personId }: PaymentRow): string | null {
  return personId === null ? null : (particularsOf(book, saleId, personId)?.ref ?? null);
}
