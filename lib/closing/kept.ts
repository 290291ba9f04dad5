/** What the association keeps of a sale: by where it comes from, and by the goods that brought it. */
import type { Charge, SaleFacts } from '#lib/facts.ts';
import { invoiceSale } from '#lib/invoice.ts';
import { addCents, type Cents, negate, sumCents, ZERO } from '#lib/money.ts';
import { compareCodePoints } from '#lib/order.ts';
import { type SellerSettlement, settleSale } from '#lib/settlement.ts';

/** All money is whole cents. `keptCents` is the sum of what stands above it. */
export interface Kept {
  readonly commissionCents: Cents;
  readonly lotFeesCents: Cents;
  readonly noSaleFeesCents: Cents;
  readonly sellerNumbersCents: Cents;
  readonly premiumCents: Cents;
  readonly donatedCents: Cents;
  /** Deducted, taken in cash, and paid by people in their own name. */
  readonly duesCents: Cents;
  readonly adjustmentsCents: Cents;
  readonly keptCents: Cents;
  /** Sales tax that is not the association's but the State's. */
  readonly taxCents: Cents;
  /** Advances that came back out of the proceeds. */
  readonly advancesCents: Cents;
}

export function keptOf(facts: SaleFacts): Kept {
  const settled = settleSale(facts);
  const invoices = invoiceSale(facts);
  const over = (of: (one: SellerSettlement) => Cents) => sumCents(settled.map(of));
  const charged = (kind: Charge['kind']) =>
    sumCents(facts.charges.filter((one) => one.kind === kind).map(({ amountCents }) => amountCents));
  const own = {
    commissionCents: over((one) => one.commissionCents),
    lotFeesCents: over((one) => one.lotFeesCents),
    noSaleFeesCents: over((one) => one.noSaleFeesCents),
    sellerNumbersCents: over((one) => one.sellerNumberFeeCents),
    premiumCents: sumCents(invoices.map(({ premiumCents }) => premiumCents)),
    donatedCents: donatedOf(settled),
    duesCents: addCents(charged('dues'), duesOfPeople(facts)),
    adjustmentsCents: charged('adjustment'),
  };
  return {
    ...own,
    keptCents: sumCents(Object.values(own)),
    taxCents: sumCents(invoices.map(({ taxCents }) => taxCents)),
    advancesCents: charged('advance'),
  };
}

function donatedOf(settled: readonly SellerSettlement[]): Cents {
  const lines = settled.flatMap((one) => one.lines.filter(({ donated }) => donated));
  return sumCents(lines.map(({ amountCents }) => amountCents));
}

/** Money of a person under neither a buyer's nor a seller's number is always dues. */
function duesOfPeople({ payments }: SaleFacts): Cents {
  const own = payments.filter(({ buyerNo, sellerNo }) => buyerNo === null && sellerNo === null);
  return sumCents(own.map(({ direction, amountCents }) => (direction === 'in' ? amountCents : negate(amountCents))));
}

/** What one kind of goods brought, and what the association keeps of it. */
export interface KeptOfGoods {
  readonly goods: string;
  readonly lotsSold: number;
  readonly hammerCents: Cents;
  readonly commissionCents: Cents;
  readonly feesCents: Cents;
  readonly premiumCents: Cents;
  readonly donatedCents: Cents;
  /** Commission, fees, premium and donated. */
  readonly keptCents: Cents;
}

/** By the goods' short names; goods of which no lot was called are left out. */
export function keptByGoods(facts: SaleFacts): KeptOfGoods[] {
  const goodsOf = new Map(facts.lots.map(({ lotNo, goods }) => [lotNo, goods]));
  const premiums = new Map(
    invoiceSale(facts).flatMap(({ lines }) => lines.map((line) => [line.lotNo, line.premiumCents] as const)),
  );
  const all = settleSale(facts).flatMap(({ lines }) => lines);
  const kinds = [...new Set(all.map(({ lotNo }) => goodsOf.get(lotNo) ?? ''))].sort(compareCodePoints);
  return kinds.map((goods) => {
    const lines = all.filter(({ lotNo }) => goodsOf.get(lotNo) === goods);
    const own = {
      commissionCents: sumCents(lines.map(({ commissionCents }) => commissionCents)),
      feesCents: sumCents(lines.map(({ feesCents }) => feesCents)),
      premiumCents: sumCents(lines.map(({ lotNo }) => premiums.get(lotNo) ?? ZERO)),
      donatedCents: sumCents(lines.filter(({ donated }) => donated).map(({ amountCents }) => amountCents)),
    };
    const lotsSold = lines.filter(({ outcome }) => outcome === 'sold').length;
    const hammerCents = sumCents(lines.map(({ amountCents }) => amountCents));
    return { goods, lotsSold, hammerCents, ...own, keptCents: sumCents(Object.values(own)) };
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
