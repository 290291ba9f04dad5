/**
 * What each seller number is owed: sums 2 to 7 of docs/exchange.md, each under its number and in their order. What
 * multiplies or divides is in decimal.js and rounded where the page says *rounded*; whole cents are added up as they are.
 */
import { lotAmount } from '#lib/lot/amount.ts';
import { compareLotNo, type LotNo } from '#lib/lot/number.ts';
import { Decimal, percentOf, roundHalfUp } from '#lib/money/decimal.ts';
import { addCents, type Cents, cents, subtractCents, sumCents, sumOf, ZERO } from '#lib/money/money.ts';
import type { Rate } from '#lib/money/rate.ts';
import { groupBy } from '#lib/result/text.ts';
import type {
  Charge,
  CommissionRates,
  Lot,
  Membership,
  Outcome,
  OutcomeKind,
  Partner,
  Sale,
  SaleFacts,
  Seller,
  Terms,
} from '#lib/sale/facts.ts';

/** One row of a settlement sheet. All money is whole cents. */
export interface SheetRow {
  readonly lotNo: LotNo;
  readonly outcome: OutcomeKind;
  readonly donated: boolean;
  /** What the lot brought; of a donated lot it is the association's. One that its seller bought back brought nothing. */
  readonly amountCents: Cents;
  readonly commissionCents: Cents;
  readonly lotFeeCents: Cents;
  readonly noSaleFeeCents: Cents;
  /** Lot fee and no-sale fee. */
  readonly feesCents: Cents;
  /** The seller's: the amount less commission and fees, 0 for a donated lot. */
  readonly netCents: Cents;
}

interface Share {
  readonly personId: string;
  readonly parts: number;
  readonly shareCents: Cents;
}

/** The settlement of one seller number. All money is whole cents; a negative net is what the seller owes. */
export interface SellerSettlement {
  readonly sellerNo: number;
  readonly membership: Membership;
  /** One row a lot with an outcome, by lot number; a lot that was withdrawn or not paid for has a row of zeros. */
  readonly rows: readonly SheetRow[];
  /** Donated lots that were sold count here too. */
  readonly lotsSold: number;
  readonly lotsPassed: number;
  /** Without donated lots. */
  readonly grossCents: Cents;
  readonly commissionCents: Cents;
  readonly lotFeesCents: Cents;
  readonly noSaleFeesCents: Cents;
  readonly sellerNumberFeeCents: Cents;
  /** Charges deducted from the settlement; those paid in cash are not in it. */
  readonly chargesCents: Cents;
  readonly netCents: Cents;
  readonly shares: readonly Share[];
}

export interface LotContext {
  readonly terms: Terms;
  readonly membership: Membership;
}

/** Sum 2: a member's number when every partner's dues are paid to the day of the sale or beyond, otherwise a guest's. */
export function membershipOf(seller: Pick<Seller, 'partners'>, heldOn: string): Membership {
  const paid = seller.partners.every(({ memberUntil }) => memberUntil !== null && memberUntil >= heldOn);
  return paid && seller.partners.length > 0 ? 'member' : 'guest';
}

/** Sum 3: the goods' own percentages go before the base ones. */
export function ratesFor(terms: Terms, goods: string): CommissionRates {
  // The goods' name is what somebody typed, so only the table's own entries count.
  const override = Object.hasOwn(terms.commissionOverrides, goods) ? terms.commissionOverrides[goods] : undefined;
  return override ?? terms.commission;
}

/** Sum 3: the percentage of commission that goods of a member or a guest pay. */
export function commissionPct(terms: Terms, goods: string, membership: Membership): Rate {
  return ratesFor(terms, goods)[membership];
}

/** Sum 3: its percentage of the amount, rounded, raised to the least commission, and never more than the amount. */
export function commissionOf(amountCents: Cents, { terms, membership, goods }: LotContext & { goods: string }): Cents {
  const share = roundHalfUp(percentOf(amountCents, commissionPct(terms, goods, membership)));
  const raised = Math.max(share, terms.commissionMinCents);
  return cents(Math.min(raised, amountCents));
}

/** Sum 4: the flat sum, and the percentage of what the minimum stands for (itself rounded), rounded. */
function noSaleFee(lot: Lot, terms: Terms): Cents {
  const minimumCents = lot.minimumCents === null ? ZERO : lotAmount(lot.minimumCents, lot);
  return addCents(terms.noSaleFlatCents, roundHalfUp(percentOf(minimumCents, terms.noSalePctOfMinimum)));
}

/**
 * The row of a lot with the outcome that stands for it.
 * Sum 4: a lot that was sold, bought back or passed costs the lot fee, a passed lot the no-sale fee too.
 * Sum 5: a donated lot pays no commission and no fee, and what it brings is not the seller's.
 * Sum 11: a lot that its seller bought back pays the commission of a sale at that price, and brings nothing; one that was
 * not paid for pays nothing and brings nothing.
 * Throws when a lot that the hammer fell for has no price.
 */
export function sheetRow(lot: Lot, outcome: Outcome, { terms, membership }: LotContext): SheetRow {
  const { goods, donated } = lot;
  const { kind } = outcome;
  const hammered = kind === 'sold' || kind === 'bought_back';
  const pays = (hammered || kind === 'passed') && !donated;
  const hammerCents = hammered ? lotAmount(priceOf(outcome), lot) : ZERO;
  const amountCents = kind === 'sold' ? hammerCents : ZERO;
  const commissionCents = hammered && pays ? commissionOf(hammerCents, { terms, membership, goods }) : ZERO;
  const lotFeeCents = pays ? terms.lotFeeCents : ZERO;
  const noSaleFeeCents = pays && kind === 'passed' ? noSaleFee(lot, terms) : ZERO;
  const feesCents = addCents(lotFeeCents, noSaleFeeCents);
  return {
    lotNo: outcome.lotNo,
    outcome: kind,
    donated,
    amountCents,
    commissionCents,
    lotFeeCents,
    noSaleFeeCents,
    feesCents,
    netCents: subtractCents(donated ? ZERO : amountCents, addCents(commissionCents, feesCents)),
  };
}

function priceOf(outcome: Outcome): Cents {
  if (outcome.priceCents === null) throw new RangeError(`lot ${outcome.lotNo} is ${outcome.kind} without a price`);
  return outcome.priceCents;
}

export interface SellerFacts {
  readonly sale: Pick<Sale, 'heldOn' | 'terms'>;
  readonly called: readonly { readonly lot: Lot; readonly outcome: Outcome }[];
  readonly charges: readonly Charge[];
}

/**
 * Settles one seller number. Sum 6: its net is its gross less commission, lot fees, no-sale fees, the seller number fee
 * and the charges that are deducted. It may be below nothing: then the seller owes it.
 */
export function settleSeller(seller: Seller, { sale, called, charges }: SellerFacts): SellerSettlement {
  const membership = membershipOf(seller, sale.heldOn);
  const rows = called
    .map(({ lot, outcome }) => sheetRow(lot, outcome, { terms: sale.terms, membership }))
    .sort((a, b) => compareLotNo(a.lotNo, b.lotNo));
  const kept = rows.filter(({ donated }) => !donated);
  const deducted = charges.filter(({ how }) => how === 'deducted');
  const grossCents = sumOf(kept, 'amountCents');
  const off = {
    commissionCents: sumOf(rows, 'commissionCents'),
    lotFeesCents: sumOf(rows, 'lotFeeCents'),
    noSaleFeesCents: sumOf(rows, 'noSaleFeeCents'),
    sellerNumberFeeCents: sale.terms.sellerNumberFeeCents,
    chargesCents: sumOf(deducted, 'amountCents'),
  };
  const netCents = subtractCents(grossCents, sumCents(Object.values(off)));
  return {
    sellerNo: seller.sellerNo,
    membership,
    rows,
    lotsSold: rows.filter((row) => row.outcome === 'sold').length,
    lotsPassed: rows.filter((row) => row.outcome === 'passed').length,
    grossCents,
    ...off,
    netCents,
    shares: sharesOf(seller.partners, netCents),
  };
}

/** Sum 7: partners share the net by parts, in the partners' order. */
function sharesOf(partners: readonly Partner[], netCents: Cents): Share[] {
  if (partners.length === 0) return [];
  const allParts = partners.map(({ parts }) => parts);
  const shares = allocate(netCents, allParts);
  return partners.map(({ personId, parts }, at) => ({ personId, parts, shareCents: shares[at] ?? ZERO }));
}

/**
 * Sum 7: an amount by whole numbers of parts, in whole cents, by the method of largest remainders; of equal remainders,
 * the earlier goes first. Each share is first the whole cents not above it, and the cents left over go one each to the
 * largest remainders, so the shares add up to the amount. A negative amount, which the sellers owe, goes by the same
 * words: its cents left over make the earlier of two equal partners owe the less.
 * Throws a RangeError unless the parts are whole, none negative, not all 0.
 */
export function allocate(total: Cents, parts: readonly number[]): Cents[] {
  if (!parts.every((part) => Number.isSafeInteger(part) && part >= 0)) throw new RangeError('parts are whole numbers');
  const all = parts.reduce((so, part) => so.plus(part), new Decimal(0));
  if (all.isZero()) throw new RangeError('there is no part to give to');
  const shares = parts.map((part, at) => {
    const product = new Decimal(total).times(part);
    const whole = product.dividedBy(all).floor();
    // In units of one part, so that it is a whole number: equal remainders are equal to the last digit.
    return { at, whole, remainder: product.minus(whole.times(all)) };
  });
  const left = shares.reduce((so, { whole }) => so.minus(whole), new Decimal(total)).toNumber();
  // A stable sort keeps the earlier of two equal remainders in front.
  const first = [...shares].sort((a, b) => b.remainder.comparedTo(a.remainder)).slice(0, left);
  const raised = new Set(first.map(({ at }) => at));
  return shares.map(({ at, whole }) => cents(whole.plus(raised.has(at) ? 1 : 0).toNumber()));
}

/** Settles every seller number of a sale, also one without lots, in the order of their numbers and one pass over the lots. */
export function settleSale(facts: SaleFacts): SellerSettlement[] {
  const outcomes = new Map(facts.outcomes.map((outcome) => [outcome.lotNo, outcome]));
  const called = facts.lots.flatMap((lot) => {
    const outcome = outcomes.get(lot.lotNo);
    return outcome === undefined ? [] : [{ lot, outcome }];
  });
  const calledOf = groupBy(called, ({ lot }) => lot.sellerNo);
  const chargesOf = groupBy(facts.charges, ({ sellerNo }) => sellerNo);
  const known = new Set(facts.sellers.map(({ sellerNo }) => sellerNo));
  const unknown = [...calledOf.keys(), ...chargesOf.keys()].find((sellerNo) => !known.has(sellerNo));
  if (unknown !== undefined) throw new RangeError(`there is no seller number ${unknown}`);
  return [...facts.sellers]
    .sort((a, b) => a.sellerNo - b.sellerNo)
    .map((seller) => {
      const { sellerNo } = seller;
      const own = { called: calledOf.get(sellerNo) ?? [], charges: chargesOf.get(sellerNo) ?? [] };
      return settleSeller(seller, { sale: facts.sale, ...own });
    });
}
