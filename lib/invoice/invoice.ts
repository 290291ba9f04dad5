/** What each buyer owes. Sum 8 of docs/exchange.md. */
import { lotAmount } from '#lib/lot/amount.ts';
import { compareLotNo, type LotNo } from '#lib/lot/number.ts';
import { percentOf, roundHalfUp } from '#lib/money/decimal.ts';
import { addCents, type Cents, sumOf, ZERO } from '#lib/money/money.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { Buyer, Lot, Measured, SaleFacts, Stage, Terms } from '#lib/sale/facts.ts';
import { decideAfterHammer } from '#lib/sale/stage.ts';

export interface InvoiceRow extends Measured {
  readonly lotNo: LotNo;
  readonly sellerNo: number;
  readonly goods: string;
  /** As hammered: for one piece, the lot, a pound or an ounce. */
  readonly priceCents: Cents;
  readonly amountCents: Cents;
  readonly premiumCents: Cents;
}

export interface BuyerInvoice {
  readonly buyerNo: number;
  readonly taxExempt: boolean;
  readonly rows: readonly InvoiceRow[];
  readonly lots: number;
  readonly amountCents: Cents;
  readonly premiumCents: Cents;
  readonly taxCents: Cents;
  readonly totalCents: Cents;
}

interface Bought {
  readonly lot: Lot;
  readonly priceCents: Cents;
}

/** The invoices of a sale: one for each buyer with a lot, by buyer number. */
export function invoiceSale(facts: SaleFacts): BuyerInvoice[] {
  const outcomes = new Map(facts.outcomes.map((outcome) => [outcome.lotNo, outcome]));
  const bought = new Map<number, Bought[]>(facts.buyers.map(({ buyerNo }) => [buyerNo, []]));
  for (const lot of facts.lots) {
    const { lotNo, kind, buyerNo = null, priceCents = null } = outcomes.get(lot.lotNo) ?? {};
    if (kind !== 'sold') continue;
    if (buyerNo === null || priceCents === null)
      throw new RangeError(`lot ${lotNo} is sold without a price or a buyer`);
    const own = bought.get(buyerNo);
    if (own === undefined) throw new RangeError(`there is no buyer number ${buyerNo}`);
    own.push({ lot, priceCents });
  }
  return [...facts.buyers]
    .sort((a, b) => a.buyerNo - b.buyerNo)
    .map((buyer) => invoiceBuyer(buyer, bought.get(buyer.buyerNo) ?? [], facts.sale.terms))
    .filter((invoice) => invoice.lots > 0);
}

export function invoiceBuyer(buyer: Buyer, bought: readonly Bought[], terms: Terms): BuyerInvoice {
  const rows = bought.map((one) => rowOf(one, terms)).sort((a, b) => compareLotNo(a.lotNo, b.lotNo));
  const { buyerNo, taxExempt } = buyer;
  const sums = { amountCents: sumOf(rows, 'amountCents'), premiumCents: sumOf(rows, 'premiumCents') };
  return { buyerNo, taxExempt, rows, lots: rows.length, ...billOfSums(sums, { terms, taxExempt }) };
}

export type Bill = Pick<BuyerInvoice, 'amountCents' | 'premiumCents' | 'taxCents' | 'totalCents'>;

/** Sum 8: the premium on one lot of this amount. */
export function premiumOf(amountCents: Cents, { premiumPct }: Pick<Terms, 'premiumPct'>): Cents {
  return roundHalfUp(percentOf(amountCents, premiumPct));
}

/**
 * Sum 8: a buyer pays the amounts; a premium on each lot, rounded; and tax on both together, rounded once for the
 * invoice. An exempt buyer pays no tax. Takes the amounts and the premiums of the lots, added up.
 */
export function billOfSums(
  { amountCents, premiumCents }: Pick<Bill, 'amountCents' | 'premiumCents'>,
  { terms, taxExempt }: { readonly terms: Terms; readonly taxExempt: boolean },
): Bill {
  const taxable = addCents(amountCents, premiumCents);
  const taxCents = taxExempt ? ZERO : roundHalfUp(percentOf(taxable, terms.taxPct));
  return { amountCents, premiumCents, taxCents, totalCents: addCents(taxable, taxCents) };
}

function rowOf({ lot, priceCents }: Bought, terms: Terms): InvoiceRow {
  const { lotNo, sellerNo, goods, by, count, weightThousandths } = lot;
  const amountCents = lotAmount(priceCents, lot);
  const premiumCents = premiumOf(amountCents, terms);
  return { lotNo, sellerNo, goods, by, count, weightThousandths, priceCents, amountCents, premiumCents };
}

export interface InvoiceContext {
  readonly stage: Stage;
  readonly buyerNo: number;
  readonly lots: number;
  /** The newest invoice it has already, and whether that still says what was bought; null where it has none. */
  readonly issued: { readonly number: number; readonly stillTrue: boolean } | null;
}

/** An invoice that no longer says what was bought is corrected by a further one, also where nothing is left of it. */
export function decideInvoice({ stage, buyerNo, lots, issued }: InvoiceContext): Result<null> {
  const allowed = decideAfterHammer(stage, 'no invoice is issued');
  if (!allowed.ok) return allowed;
  if (issued?.stillTrue) {
    const what = `Invoice ${issued.number} still says what buyer ${buyerNo} has bought.`;
    return refuse('already', `${what} Print that one again; an issued invoice is never changed.`, 'buyerNo');
  }
  if (issued === null && lots === 0) {
    return refuse('missing', `Buyer ${buyerNo} has bought nothing yet: there is nothing to bill.`, 'buyerNo');
  }
  return accept(null);
}
