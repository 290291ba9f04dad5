/** What each buyer owes: rule 8. */
import type { Buyer, By, Lot, Outcome, SaleFacts, Terms } from '#lib/facts.ts';
import { compareLotNo, type LotNo } from '#lib/lot-number.ts';
import { addCents, type Cents, percentOf, sumCents, ZERO } from '#lib/money.ts';
import { lotAmount } from '#lib/quantity.ts';

export interface InvoiceLine {
  readonly lotNo: LotNo;
  readonly sellerNo: number;
  readonly goods: string;
  readonly by: By;
  readonly count: number | null;
  readonly weightThousandths: number | null;
  /** As hammered: for one piece, the lot, a pound or an ounce. */
  readonly priceCents: Cents;
  readonly amountCents: Cents;
  readonly premiumCents: Cents;
}

/** The invoice of one buyer number. All money is whole cents. */
export interface BuyerInvoice {
  readonly buyerNo: number;
  readonly taxExempt: boolean;
  /** By lot number. */
  readonly lines: readonly InvoiceLine[];
  /** How many lots. */
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
    const outcome = outcomes.get(lot.lotNo);
    if (outcome?.kind !== 'sold') continue;
    const { buyerNo, priceCents } = soldTo(outcome);
    const own = bought.get(buyerNo);
    if (own === undefined) throw new RangeError(`there is no buyer number ${buyerNo}`);
    own.push({ lot, priceCents });
  }
  return [...facts.buyers]
    .sort((a, b) => a.buyerNo - b.buyerNo)
    .map((buyer) => invoiceBuyer(buyer, bought.get(buyer.buyerNo) ?? [], facts.sale.terms))
    .filter((invoice) => invoice.lots > 0);
}

function soldTo({ lotNo, buyerNo, priceCents }: Outcome): { buyerNo: number; priceCents: Cents } {
  if (buyerNo === null || priceCents === null) throw new RangeError(`lot ${lotNo} is sold without a price or a buyer`);
  return { buyerNo, priceCents };
}

/** One buyer's invoice over the lots given. */
export function invoiceBuyer(buyer: Buyer, bought: readonly Bought[], terms: Terms): BuyerInvoice {
  const lines = bought.map((one) => lineOf(one, terms)).sort((a, b) => compareLotNo(a.lotNo, b.lotNo));
  const { buyerNo, taxExempt } = buyer;
  const bill = billOf(
    lines.map(({ amountCents }) => amountCents),
    { terms, taxExempt },
  );
  return { buyerNo, taxExempt, lines, lots: lines.length, ...bill };
}

export type Bill = Pick<BuyerInvoice, 'amountCents' | 'premiumCents' | 'taxCents' | 'totalCents'>;

/** What lots of these amounts come to: the premium is rounded for each lot, the tax once for all of them; an exempt buyer pays no tax. */
export function billOf(
  amounts: readonly Cents[],
  { terms, taxExempt }: { readonly terms: Terms; readonly taxExempt: boolean },
): Bill {
  const amountCents = sumCents(amounts);
  const premiumCents = sumCents(amounts.map((amount) => percentOf(amount, terms.premiumPct)));
  return billOfSums({ amountCents, premiumCents }, { terms, taxExempt });
}

/** The same of lots whose amounts and premiums were added up already. */
export function billOfSums(
  { amountCents, premiumCents }: Pick<Bill, 'amountCents' | 'premiumCents'>,
  { terms, taxExempt }: { readonly terms: Terms; readonly taxExempt: boolean },
): Bill {
  const taxCents = taxExempt ? ZERO : percentOf(addCents(amountCents, premiumCents), terms.taxPct);
  return { amountCents, premiumCents, taxCents, totalCents: addCents(amountCents, premiumCents, taxCents) };
}

function lineOf({ lot, priceCents }: Bought, terms: Terms): InvoiceLine {
  const { lotNo, sellerNo, goods, by, count, weightThousandths } = lot;
  const amountCents = lotAmount(priceCents, lot);
  const premiumCents = percentOf(amountCents, terms.premiumPct);
  return { lotNo, sellerNo, goods, by, count, weightThousandths, priceCents, amountCents, premiumCents };
}
