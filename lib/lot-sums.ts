/** What one lot brings its seller: rules 1, 3, 4 and 5. */
import type { Lot, Membership, Outcome, OutcomeKind, Terms } from '#lib/facts.ts';
import type { LotNo } from '#lib/lot-number.ts';
import { addCents, type Cents, cents, percentOf, subtractCents, ZERO } from '#lib/money.ts';
import { lotAmount } from '#lib/quantity.ts';
import { commissionPct } from '#lib/terms.ts';

/** One line of a settlement sheet. All money is whole cents. */
export interface LotLine {
  readonly lotNo: LotNo;
  readonly outcome: OutcomeKind;
  readonly donated: boolean;
  /** What the lot brought; of a donated lot it is the association's. */
  readonly amountCents: Cents;
  readonly commissionCents: Cents;
  readonly lotFeeCents: Cents;
  readonly noSaleFeeCents: Cents;
  /** Lot fee and no-sale fee. */
  readonly feesCents: Cents;
  /** The seller's: the amount less commission and fees, 0 for a donated lot. */
  readonly netCents: Cents;
}

export interface LotContext {
  readonly terms: Terms;
  readonly membership: Membership;
}

/** The line of a lot with the outcome that stands for it. Throws when a sold lot has no price. */
export function lotLine(lot: Lot, outcome: Outcome, { terms, membership }: LotContext): LotLine {
  const sold = outcome.kind === 'sold';
  const amountCents = sold ? lotAmount(priceOf(outcome), lot) : ZERO;
  const free = lot.donated || outcome.kind === 'withdrawn';
  const commissionCents = sold && !free ? commissionOf(amountCents, { terms, membership, goods: lot.goods }) : ZERO;
  const lotFeeCents = free ? ZERO : terms.lotFeeCents;
  const noSaleFeeCents = free || sold ? ZERO : noSaleFee(lot, terms);
  const feesCents = addCents(lotFeeCents, noSaleFeeCents);
  const netCents = subtractCents(lot.donated ? ZERO : amountCents, addCents(commissionCents, feesCents));
  const { kind, lotNo } = outcome;
  return {
    lotNo,
    outcome: kind,
    donated: lot.donated,
    amountCents,
    commissionCents,
    lotFeeCents,
    noSaleFeeCents,
    feesCents,
    netCents,
  };
}

function priceOf(outcome: Outcome): Cents {
  if (outcome.priceCents === null) throw new RangeError(`lot ${outcome.lotNo} is sold without a price`);
  return outcome.priceCents;
}

/** Rule 3: the percentage rounded half up, raised to the least commission, and never more than the amount. */
export function commissionOf(amount: Cents, { terms, membership, goods }: LotContext & { goods: string }): Cents {
  const share = percentOf(amount, commissionPct(terms, goods, membership));
  return cents(Math.min(Math.max(share, terms.commissionMinCents), amount));
}

/** Rule 4: the flat fee and the percentage of what the minimum stands for, each product rounded half up. */
function noSaleFee(lot: Lot, terms: Terms): Cents {
  const minimum = lot.minimumCents === null ? ZERO : lotAmount(lot.minimumCents, lot);
  return addCents(terms.noSaleFlatCents, percentOf(minimum, terms.noSalePctOfMinimum));
}
