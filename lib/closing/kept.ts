/** What the association keeps of a sale: by where it comes from, and by the goods that brought it. */
import { type GoodsSums, type KeptPart, type KeptSums, keptOfBuyer, keptOfSeller } from '#lib/closing/kept-parts.ts';
import type { Payment, SaleFacts } from '#lib/facts.ts';
import { groupBy } from '#lib/group.ts';
import { invoiceSale } from '#lib/invoice.ts';
import { addCents, type Cents, negate, sumCents } from '#lib/money.ts';
import { compareCodePoints } from '#lib/order.ts';
import { settleSale } from '#lib/settlement.ts';

/** All money is whole cents. `keptCents` is the sum of what stands above it in {@link KEPT_WORDS}. */
export interface Kept extends KeptSums {
  readonly keptCents: Cents;
}

export function keptOf(facts: SaleFacts): Kept {
  return keptOfParts(keptParts(facts), facts.payments);
}

/** By the goods' short names; goods of which no lot was called are left out. */
export function keptByGoods(facts: SaleFacts): KeptOfGoods[] {
  return goodsOfParts(keptParts(facts));
}

/** Both at once, so that a large sale is settled once for the two. */
export function keptOfSale(facts: SaleFacts): { readonly kept: Kept; readonly byGoods: KeptOfGoods[] } {
  const parts = keptParts(facts);
  return { kept: keptOfParts(parts, facts.payments), byGoods: goodsOfParts(parts) };
}

function keptParts(facts: SaleFacts): KeptPart[] {
  const goods = new Map(facts.lots.map((lot) => [lot.lotNo, lot.goods]));
  const charges = groupBy(facts.charges, ({ sellerNo }) => sellerNo);
  const sellers = settleSale(facts).map((one) =>
    keptOfSeller(one, { goods, charges: charges.get(one.sellerNo) ?? [] }),
  );
  return [...sellers, ...invoiceSale(facts).map(keptOfBuyer)];
}

/** `payments` are those of the whole sale, or of people in their own name alone. */
export function keptOfParts(parts: readonly KeptPart[], payments: readonly Payment[]): Kept {
  const over = (of: (sums: KeptSums) => Cents) => sumCents(parts.map(({ sums }) => of(sums)));
  const own = {
    commissionCents: over((one) => one.commissionCents),
    lotFeesCents: over((one) => one.lotFeesCents),
    noSaleFeesCents: over((one) => one.noSaleFeesCents),
    sellerNumbersCents: over((one) => one.sellerNumbersCents),
    premiumCents: over((one) => one.premiumCents),
    donatedCents: over((one) => one.donatedCents),
    duesCents: addCents(
      over((one) => one.duesCents),
      duesOfPeople(payments),
    ),
    adjustmentsCents: over((one) => one.adjustmentsCents),
  };
  return {
    ...own,
    keptCents: sumCents(Object.values(own)),
    taxCents: over((one) => one.taxCents),
    advancesCents: over((one) => one.advancesCents),
  };
}

/** Money of a person under neither a buyer's nor a seller's number is always dues. */
function duesOfPeople(payments: readonly Payment[]): Cents {
  const own = payments.filter(({ buyerNo, sellerNo }) => buyerNo === null && sellerNo === null);
  return sumCents(own.map(({ direction, amountCents }) => (direction === 'in' ? amountCents : negate(amountCents))));
}

/** What one kind of goods brought, and what the association keeps of it. */
export interface KeptOfGoods extends GoodsSums {
  /** Commission, fees, premium and donated. */
  readonly keptCents: Cents;
}

export function goodsOfParts(parts: readonly KeptPart[]): KeptOfGoods[] {
  const byGoods = groupBy(
    parts.flatMap((part) => part.goods),
    ({ goods }) => goods,
  );
  return [...byGoods]
    .sort(([one], [other]) => compareCodePoints(one, other))
    .map(([goods, own]) => {
      const earned = {
        commissionCents: sumCents(own.map(({ commissionCents }) => commissionCents)),
        feesCents: sumCents(own.map(({ feesCents }) => feesCents)),
        premiumCents: sumCents(own.map(({ premiumCents }) => premiumCents)),
        donatedCents: sumCents(own.map(({ donatedCents }) => donatedCents)),
      };
      const lotsSold = own.reduce((so, one) => so + one.lotsSold, 0);
      const hammerCents = sumCents(own.map((one) => one.hammerCents));
      return { goods, lotsSold, hammerCents, ...earned, keptCents: sumCents(Object.values(earned)) };
    });
}

/** The parts of {@link Kept} with the words that people read, in the order in which they are shown. */
export const KEPT_WORDS = [
  ['commissionCents', 'Commission'],
  ['lotFeesCents', 'Lot fees'],
  ['noSaleFeesCents', 'No-sale fees'],
  ['sellerNumbersCents', 'Seller numbers'],
  ['premiumCents', 'Buyer’s premium'],
  ['donatedCents', 'Donated lots'],
  ['duesCents', 'Dues'],
  ['adjustmentsCents', 'Adjustments'],
] as const satisfies readonly (readonly [keyof Kept, string])[];
