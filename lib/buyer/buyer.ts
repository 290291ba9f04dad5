/** What the papers of one buyer are made from: the facts of one buyer number. */
import { type BuyerInvoice, invoiceBuyer, invoiceSale } from '#lib/invoice/invoice.ts';
import { type Cents, negate, showMoney, subtractCents, ZERO } from '#lib/money/money.ts';
import type { Licence } from '#lib/person/fields.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Buyer, Handed, Lot, Method, Payment, SaleFacts, Seller } from '#lib/sale/facts.ts';
import { isHandedOver, leftOf, type PaidSplit, splitPaid } from '#lib/seller/account.ts';
import type { SellerFile } from '#lib/settlement/parties.ts';
import { clean, joined } from '#lib/settlement/spelling.ts';

/** A lot with the region (ISO 3166-2) whose tags its pieces bear, empty where it is the sale's own. */
export interface BoughtLot extends Lot {
  readonly takenIn: string;
}

/** All lists are of this buyer only, except the goods, the sellers and the people, which may be the whole sale's. */
export interface BuyerFile extends Omit<SellerFile, 'buyers' | 'seller' | 'lots' | 'charges'> {
  readonly sellers: readonly Seller[];
  readonly buyer: Buyer & Licence;
  readonly lots: readonly BoughtLot[];
  /** Those that stand. */
  readonly payments: readonly Payment[];
}

export const HANDED_WORDS: Readonly<Record<Handed, string>> = {
  cash: 'Cash',
  check: 'Check',
  card: 'Card',
  other: 'Other',
};

export const METHOD_WORDS: Readonly<Record<Method, string>> = {
  ...HANDED_WORDS,
  set_off: 'Set off',
  written_off: 'Written off',
  check_fee: 'Returned-check fee',
};

/** How it was paid: `Check 1045`, also where the reference says `Check 1045` by itself. */
export function paidBy({ method, reference }: Pick<Payment, 'method' | 'reference'>): string {
  const [word, said] = [METHOD_WORDS[method], clean(reference)];
  const saysSo = new RegExp(`^${word}\\b`, 'i').test(said);
  return joined([word, saysSo ? said.slice(word.length) : said], ' ');
}

/** The payments of a list that were voided, by their ids. */
export function voidedOf(
  payments: readonly { readonly paymentId: number; readonly voided: string | null }[],
): readonly number[] {
  return payments.flatMap(({ paymentId, voided }) => (voided === null ? [] : [paymentId]));
}

/** The same with what it was, where it went out to a buyer: money handed back, or something charged. */
export function paymentWords(payment: Pick<Payment, 'direction' | 'method' | 'reference'>): string {
  const what = paidBy(payment);
  return payment.direction === 'out' && isHandedOver(payment) ? `${what}, handed back` : what;
}

/** The same on a paper that is handed out: why a debt was given up stays with the treasurer. */
export function paperWords(payment: Pick<Payment, 'direction' | 'method' | 'reference'>): string {
  return paymentWords(payment.method === 'written_off' ? { ...payment, reference: '' } : payment);
}

/** `250.00 left of the limit`, or by how much what is owing goes beyond it. */
export function limitInWords(limitCents: Cents, owingCents: Cents): string {
  const left = subtractCents(limitCents, owingCents);
  return left >= ZERO ? `${showMoney(left)} left of the limit` : `beyond the limit by ${showMoney(negate(left))}`;
}

export interface BuyerAccount extends PaidSplit {
  readonly buyerNo: number;
  readonly invoice: BuyerInvoice;
  /** The invoice's total and fees less what was paid, set off or given up; below nothing, the association owes the buyer. */
  readonly owingCents: Cents;
}

/** The accounts of all buyers of a sale by number, also of those who bought nothing. */
export function buyerAccounts(facts: SaleFacts): BuyerAccount[] {
  const invoices = new Map(invoiceSale(facts).map((invoice) => [invoice.buyerNo, invoice]));
  const payments = groupBy(facts.payments, (payment) => payment.buyerNo);
  return [...facts.buyers]
    .sort((a, b) => a.buyerNo - b.buyerNo)
    .map((buyer) => {
      const { buyerNo } = buyer;
      const invoice = invoices.get(buyerNo) ?? invoiceBuyer(buyer, [], facts.sale.terms);
      const split = splitPaid(payments.get(buyerNo) ?? []);
      return { buyerNo, invoice, ...split, owingCents: leftOf(invoice.totalCents, split) };
    });
}

export interface EarlierBuyer {
  readonly buyerNo: number;
  readonly personId: number;
}

export interface Carried<T> {
  readonly registered: readonly T[];
  readonly numberTaken: readonly T[];
}

/** Everybody who has no number here yet gets the one they had, unless somebody else has it. */
export function decideCarry<T extends EarlierBuyer>(
  earlier: readonly T[],
  here: readonly EarlierBuyer[],
): Result<Carried<T>> {
  const people = new Set(here.map(({ personId }) => personId));
  const numbers = new Set(here.map(({ buyerNo }) => buyerNo));
  // Somebody who held two numbers gets both again.
  const missing = earlier.filter(({ personId }) => !people.has(personId));
  const registered = missing.filter(({ buyerNo }) => !numbers.has(buyerNo));
  if (registered.length > 0) {
    return accept({ registered, numberTaken: missing.filter(({ buyerNo }) => numbers.has(buyerNo)) });
  }
  if (earlier.length === 0) return refuse('unknown', 'No earlier sale has buyers: register them one by one.', 'saleId');
  return refuse('already', 'Every buyer of that sale has a number here, or somebody else has theirs.', 'saleId');
}
