/** The buyers of a sale with their accounts, and one buyer's account in full: finished views for the till. */
import { and, asc, eq } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { buyerAccounts } from '#lib/buyer-account.ts';
import type { Direction, Method } from '#lib/facts.ts';
import { quantityInWords, unitInWords } from '#lib/lot-words.ts';
import { type Cents, cents, formatMoney, negate, showMoney, sumCents } from '#lib/money.ts';
import type { Book } from '../open.ts';
import { buyer, payment } from '../schema/index.ts';
import { type BuyerHead, headsOf } from './buyer-heads.ts';
import type { SaleRow } from './find.ts';
import { newestHandovers } from './handed.ts';
import { invoiceStates, newestInvoices } from './invoices.ts';
import { keptUntilLine } from './kept.ts';
import { partiesOf } from './parties.ts';
import { buyerFacts } from './sale-facts.ts';

type Sale = Pick<SaleRow, 'id' | 'heldOn'>;

export interface TillView {
  readonly rows: readonly BuyerHead[];
  /** What all buyers owe together, without those to whom the association owes. */
  readonly owingCents: Cents;
}

/** Kept until the log moves. */
export function tillView(book: Book, sale: SaleRow): TillView {
  return keptUntilLine(book, `till ${sale.id}`, () => {
    const rows = partiesOf(book, sale).buyers.map(({ head }) => head);
    return { rows, owingCents: sumCents(rows.map(({ owingCents }) => owingCents).filter((owing) => owing > 0)) };
  });
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

export interface PaymentRow {
  readonly paymentId: number;
  readonly direction: Direction;
  readonly method: Method;
  readonly amount: string;
  readonly reference: string;
  readonly paidAt: string;
  /** Why it was voided, or null where it stands. */
  readonly voided: string | null;
}

export interface BuyerView extends BuyerHead {
  readonly bought: readonly BoughtLot[];
  readonly amountCents: Cents;
  readonly premiumCents: Cents;
  readonly taxCents: Cents;
  readonly payments: readonly PaymentRow[];
  /** What there is to settle and which way the money goes; null where the account is even. */
  readonly due: { readonly direction: Direction; readonly amount: string } | null;
}

/** One buyer's account, or undefined where the sale has no such number. */
export function buyerView(book: Book, sale: Sale, buyerNo: number): BuyerView | undefined {
  const facts = buyerFacts(book, sale.id, buyerNo);
  const account = buyerAccounts(facts).find((one) => one.buyerNo === buyerNo);
  if (!account) return undefined;
  const scope = { buyerNo };
  const [head] = headsOf(book, sale, {
    accounts: [account],
    newest: newestHandovers(book, sale.id, scope),
    invoices: invoiceStates(book, sale.id, { scope, newest: newestInvoices(book, sale.id, scope) }),
  });
  if (!head) return undefined;
  const names = new Map(facts.goods.map(({ goods, name }) => [goods, name]));
  const { lines, amountCents, premiumCents, taxCents } = account.invoice;
  const bought = lines.map((line) => ({
    lotNo: line.lotNo,
    goods: names.get(line.goods) ?? line.goods,
    quantity: quantityInWords(line),
    price: `${showMoney(line.priceCents)} ${unitInWords(line.by)}`,
    amount: showMoney(line.amountCents),
    premium: showMoney(line.premiumCents),
  }));
  const payments = paymentsOf(book, sale.id, buyerNo);
  return { ...head, bought, amountCents, premiumCents, taxCents, payments, due: dueOf(account.owingCents) };
}

function dueOf(owing: Cents): BuyerView['due'] {
  if (owing === 0) return null;
  return owing > 0
    ? { direction: 'in', amount: formatMoney(owing) }
    : { direction: 'out', amount: formatMoney(negate(owing)) };
}

/** All payments of a buyer in their order, the voided ones too: on the list they are read, in no sum are they counted. */
function paymentsOf(book: Book, saleId: number, buyerNo: number): PaymentRow[] {
  const voiding = alias(payment, 'voiding');
  const { id: paymentId, direction, method, amountCents, reference, paidAt, voidsId } = payment;
  const rows = book.db
    .select({ paymentId, direction, method, amountCents, reference, paidAt, voidsId, voided: voiding.reason })
    .from(payment)
    .innerJoin(buyer, eq(buyer.id, payment.buyerId))
    .leftJoin(voiding, eq(voiding.voidsId, payment.id))
    .where(and(eq(payment.saleId, saleId), eq(buyer.buyerNo, buyerNo)))
    .orderBy(asc(payment.id))
    .all();
  return rows.flatMap(({ voidsId: voids, amountCents: amount, ...row }) =>
    voids === null ? [{ ...row, amount: showMoney(cents(amount)) }] : [],
  );
}
