/** The buyers of a sale with their accounts, and one buyer's account in full: finished views for the till. */
import { and, asc, between, eq, isNull, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { type BuyerRow, lotByNumber, lotNoOf, type SaleRow } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { type InvoiceState, invoiceStates } from '#db/invoice/queries.ts';
import { noLot } from '#db/lot/former.ts';
import { calledLot } from '#db/outcome/called.ts';
import { buyerFacts } from '#db/sale/facts.ts';
import { isPaymentFrozen } from '#db/sale/queries.ts';
import { buyer, lotNow, particulars, payment, person, standingOutcome } from '#db/schema/index.ts';
import { buyerAccounts } from '#lib/buyer/buyer.ts';
import { WALK_IN_REF } from '#lib/buyer/walk-in.ts';
import { pick } from '#lib/field/fields.ts';
import { readLot } from '#lib/lot/number.ts';
import { quantityInWords, unitInWords } from '#lib/lot/words.ts';
import { type Cents, cents, showMoney, sumCents } from '#lib/money/money.ts';
import { FATE_WORDS, OUTCOME_WORDS } from '#lib/outcome/words.ts';
import { type Due, dueOf } from '#lib/payment/decide-payment.ts';
import { type LicenceState, licenceInWords, type Standing } from '#lib/person/person.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { type AccountSums, accountSums } from './accounts.ts';
import { newestHandovers } from './handover.ts';

const ACCOUNT = [
  ...(['lots', 'lotsHere', 'totalCents', 'paidCents', 'setOffCents', 'givenUpCents'] as const),
  ...(['feeCents', 'owingCents'] as const),
] as const;
type Account = Pick<AccountSums, (typeof ACCOUNT)[number]>;

/** How a buyer of a sale stands: the head of the account, as the till lists it. */
export interface BuyerHead extends Account, Pick<BuyerRow, 'buyerNo' | 'cleared' | 'clearedBy'> {
  readonly name: string;
  readonly licence: Standing<LicenceState>;
  /** Somebody whose name was not asked. */
  readonly walkIn: boolean;
  /** The number of the exemption, or null for a buyer who pays tax. */
  readonly exemptNo: string | null;
  /** The limit that warns, where one is set and what is owing goes beyond it. */
  readonly overLimitCents: Cents | null;
}

export interface TillView {
  readonly rows: readonly BuyerHead[];
  /** What all buyers owe together, without those to whom the association owes. */
  readonly owingCents: Cents;
}

/** Every buyer with what is owing. Nothing is read of a single lot, whatever the size of the sale. */
export function tillView(book: Book, sale: SaleRow): TillView {
  const accountOf = accountSums(book, sale);
  const rows = findBuyers(book)
    .all({ saleId: sale.id, from: 0, to: Number.MAX_SAFE_INTEGER })
    .map((found) => headOf(sale, found, accountOf(found.row)));
  return { rows, owingCents: sumCents(rows.map(({ owingCents }) => owingCents).filter((owing) => owing > 0)) };
}

/** The newest invoices of some buyers, each with whether it still says what was bought: of those that a page shows. */
export function invoicesShown(book: Book, saleId: number, buyerNos: readonly number[]): Map<number, InvoiceState> {
  return new Map(buyerNos.flatMap((buyerNo) => [...invoiceStates(book, saleId, { buyerNo })]));
}

const given = sql.placeholder;

const findBuyers = query(({ db }) =>
  db
    .select({ row: buyer, name: particulars.name, ref: person.ref })
    .from(buyer)
    .innerJoin(particulars, and(eq(particulars.personId, buyer.personId), eq(particulars.saleId, buyer.saleId)))
    .innerJoin(person, eq(person.id, buyer.personId))
    .where(and(equals(buyer.saleId, 'saleId'), between(buyer.buyerNo, given('from'), given('to'))))
    .orderBy(asc(buyer.buyerNo)),
);

type Found = { readonly row: BuyerRow; readonly name: string; readonly ref: string };

function headOf({ heldOn }: Pick<SaleRow, 'heldOn'>, { row, name, ref }: Found, account: Account): BuyerHead {
  const { taxExempt, exemptNo, limitCents } = row;
  const over = limitCents !== null && account.owingCents > limitCents;
  return {
    ...pick(row, ['buyerNo', 'cleared', 'clearedBy']),
    ...{
      name,
      walkIn: ref === WALK_IN_REF,
      licence: licenceInWords(row, heldOn),
      exemptNo: taxExempt ? exemptNo : null,
    },
    ...pick(account, ACCOUNT),
    overLimitCents: over ? limitCents : null,
  };
}

interface BoughtLot {
  readonly lotNo: string;
  readonly goods: string;
  readonly quantity: string;
  /** As hammered, with what it stands for: `13.25 each`. */
  readonly price: string;
  readonly amount: string;
  readonly premium: string;
}

export interface PaymentRow extends Pick<typeof payment.$inferSelect, 'direction' | 'method' | 'reference' | 'paidAt'> {
  readonly paymentId: number;
  readonly amount: string;
  /** Why it was voided, or null where it stands. */
  readonly voided: string | null;
  /** No closing report counts it, so that it can be voided. */
  readonly voidable: boolean;
}

/** A lot that this buyer was given and never paid for; one that is offered again is not among them. */
export interface UnpaidLot {
  readonly lotNo: string;
  readonly goods: string;
  /** As hammered, with what it stands for: `13.25 each`. */
  readonly price: string;
  /** `back to the seller`. */
  readonly fate: string;
  readonly reason: string;
}

export interface BuyerView extends BuyerHead {
  /** The newest invoice, and whether it still says what was bought; null where none was issued. */
  readonly invoice: InvoiceState | null;
  readonly bought: readonly BoughtLot[];
  /** The numbers of the lots that still lie here. */
  readonly here: readonly string[];
  readonly unpaid: readonly UnpaidLot[];
  readonly amountCents: Cents;
  readonly premiumCents: Cents;
  readonly taxCents: Cents;
  readonly payments: readonly PaymentRow[];
  readonly due: Due | null;
}

type OfSale = Pick<SaleRow, 'id' | 'heldOn' | 'stage'>;

/** One buyer's account, or undefined where the sale has no such number. */
export function buyerView(book: Book, sale: OfSale, buyerNo: number): BuyerView | undefined {
  const found = findBuyers(book).get({ saleId: sale.id, from: buyerNo, to: buyerNo });
  const facts = buyerFacts(book, sale.id, buyerNo);
  const account = buyerAccounts(facts).find((one) => one.buyerNo === buyerNo);
  if (!account || !found) return undefined;
  const { owingCents, invoice } = account;
  const handed = newestHandovers(book, sale.id, { buyerNo });
  const here = invoice.rows.map(({ lotNo }) => lotNo).filter((lotNo) => handed.get(lotNo)?.kind !== 'handed');
  const { lots, totalCents } = invoice;
  const head = headOf(sale, found, { ...account, lots, lotsHere: here.length, totalCents });
  const names = new Map(facts.goods.map(({ goods, name }) => [goods, name]));
  const { rows, amountCents, premiumCents, taxCents } = account.invoice;
  const bought = rows.map((line) => ({
    lotNo: line.lotNo,
    goods: names.get(line.goods) ?? line.goods,
    quantity: quantityInWords(line),
    price: `${showMoney(line.priceCents)} ${unitInWords(line.by)}`,
    amount: showMoney(line.amountCents),
    premium: showMoney(line.premiumCents),
  }));
  const payments = paymentsOf(book, sale, buyerNo);
  return {
    ...{
      ...head,
      bought,
      here,
      unpaid: unpaidOf(book, found.row.id),
      amountCents,
      premiumCents,
      taxCents,
      payments,
      due: dueOf(owingCents),
    },
    invoice: invoiceStates(book, sale.id, { buyerNo }).get(buyerNo) ?? null,
  };
}

const findUnpaid = query(({ db }) =>
  db
    .select({
      ...pick(lotNow, ['lotNumber', 'lotLetter', 'by']),
      ...{ goods: lotNow.goodsName, ...pick(standingOutcome, ['fate', 'priceCents', 'reason']) },
    })
    .from(standingOutcome)
    .innerJoin(lotNow, eq(lotNow.id, standingOutcome.lotId))
    .where(and(equals(standingOutcome.buyerId, 'buyerId'), eq(standingOutcome.kind, 'unpaid')))
    .orderBy(asc(lotNow.lotNumber), asc(lotNow.lotLetter)),
);

function unpaidOf(book: Book, buyerId: number): UnpaidLot[] {
  return findUnpaid(book)
    .all({ buyerId })
    .map(({ goods, reason, fate, by, priceCents, ...lot }) => ({
      ...{ lotNo: lotNoOf(lot), goods, reason },
      price: `${showMoney(priceCents ?? cents(0))} ${unitInWords(by)}`,
      fate: fate ? FATE_WORDS[fate] : '',
    }));
}

const voiding = alias(payment, 'voiding');

const findPayments = query(({ db }) =>
  db
    .select({
      paymentId: payment.id,
      ...pick(payment, ['direction', 'method', 'amountCents', 'reference', 'paidAt', 'line']),
      voided: voiding.reason,
    })
    .from(payment)
    .innerJoin(buyer, eq(buyer.id, payment.buyerId))
    .leftJoin(voiding, eq(voiding.voidsId, payment.id))
    .where(and(equals(buyer.saleId, 'saleId'), equals(buyer.buyerNo, 'buyerNo'), isNull(payment.voidsId)))
    .orderBy(asc(payment.id)),
);

/** All payments of a buyer in their order, the voided ones too: on the list they are read, in no sum are they counted. */
function paymentsOf(book: Book, sale: OfSale, buyerNo: number): PaymentRow[] {
  const rows = findPayments(book).all({ saleId: sale.id, buyerNo });
  return rows.map(({ amountCents: amount, line, ...row }) => ({
    ...{ ...row, amount: showMoney(cents(amount)) },
    voidable: row.voided === null && !isPaymentFrozen(book, sale, { line, method: row.method }),
  }));
}

/** The buyer number to which a scanned ticket leads: whoever bought the lot. Refuses with what became of it instead. */
export function buyerOfTicket(book: Book, saleId: number, text: string): Result<number> {
  const read = readLot(text, saleId);
  if (!read.ok) return read;
  const row = lotByNumber(book, saleId, read.value);
  if (!row) return noLot(book, saleId, read.value);
  const called = calledLot(book, row.id);
  if (called?.kind === 'sold' && called.buyerNo !== null) return accept(called.buyerNo);
  const words = called ? OUTCOME_WORDS[called.kind] : 'not called yet';
  return refuse('unknown', `Lot ${read.value} is ${words}: it has no buyer.`, 'buyerNo');
}
