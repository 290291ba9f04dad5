/** What one seller number and what one buyer bring the association, so that a large sale's is put together from them. */
import type { Charge } from '#lib/facts.ts';
import { groupBy } from '#lib/group.ts';
import type { BuyerInvoice } from '#lib/invoice.ts';
import type { LotNo } from '#lib/lot-number.ts';
import { type Cents, sumCents, ZERO } from '#lib/money.ts';
import type { LotLine, SellerSettlement } from '#lib/settlement.ts';

/** All money is whole cents. */
export interface KeptSums {
  readonly commissionCents: Cents;
  readonly lotFeesCents: Cents;
  readonly noSaleFeesCents: Cents;
  readonly sellerNumbersCents: Cents;
  readonly premiumCents: Cents;
  readonly donatedCents: Cents;
  /** Deducted, taken in cash, and paid by people in their own name. */
  readonly duesCents: Cents;
  readonly adjustmentsCents: Cents;
  /** Sales tax that is not the association's but the State's. */
  readonly taxCents: Cents;
  /** Advances that came back out of the proceeds. */
  readonly advancesCents: Cents;
}

/** What one kind of goods brought. */
export interface GoodsSums {
  readonly goods: string;
  readonly lotsSold: number;
  readonly hammerCents: Cents;
  readonly commissionCents: Cents;
  readonly feesCents: Cents;
  readonly premiumCents: Cents;
  readonly donatedCents: Cents;
}

export interface KeptPart {
  readonly sums: KeptSums;
  readonly goods: readonly GoodsSums[];
}

const NOTHING: KeptSums = {
  commissionCents: ZERO,
  lotFeesCents: ZERO,
  noSaleFeesCents: ZERO,
  sellerNumbersCents: ZERO,
  premiumCents: ZERO,
  donatedCents: ZERO,
  duesCents: ZERO,
  adjustmentsCents: ZERO,
  taxCents: ZERO,
  advancesCents: ZERO,
};

interface OfSeller {
  /** The goods of each of the number's lots. */
  readonly goods: ReadonlyMap<LotNo, string>;
  readonly charges: readonly Charge[];
}

/** Without the premium, which the buyers bring. */
export function keptOfSeller(settled: SellerSettlement, { goods, charges }: OfSeller): KeptPart {
  const charged = (kind: Charge['kind']) =>
    sumCents(charges.filter((one) => one.kind === kind).map(({ amountCents }) => amountCents));
  const { commissionCents, lotFeesCents, noSaleFeesCents, sellerNumberFeeCents, lines } = settled;
  return {
    sums: {
      ...NOTHING,
      commissionCents,
      lotFeesCents,
      noSaleFeesCents,
      sellerNumbersCents: sellerNumberFeeCents,
      donatedCents: donatedOf(lines),
      duesCents: charged('dues'),
      adjustmentsCents: charged('adjustment'),
      advancesCents: charged('advance'),
    },
    goods: [...groupBy(lines, ({ lotNo }) => goods.get(lotNo) ?? '')].map(([code, own]) => ({
      goods: code,
      lotsSold: own.filter(({ outcome }) => outcome === 'sold').length,
      hammerCents: sumCents(own.map(({ amountCents }) => amountCents)),
      commissionCents: sumCents(own.map((line) => line.commissionCents)),
      feesCents: sumCents(own.map(({ feesCents }) => feesCents)),
      premiumCents: ZERO,
      donatedCents: donatedOf(own),
    })),
  };
}

function donatedOf(lines: readonly LotLine[]): Cents {
  return sumCents(lines.filter(({ donated }) => donated).map(({ amountCents }) => amountCents));
}

/** The premium and the tax; what the lots brought is the sellers'. */
export function keptOfBuyer({ lines, premiumCents, taxCents }: BuyerInvoice): KeptPart {
  return {
    sums: { ...NOTHING, premiumCents, taxCents },
    goods: [...groupBy(lines, ({ goods }) => goods)].map(([goods, own]) => ({
      goods,
      lotsSold: 0,
      hammerCents: ZERO,
      commissionCents: ZERO,
      feesCents: ZERO,
      donatedCents: ZERO,
      premiumCents: sumCents(own.map((line) => line.premiumCents)),
    })),
  };
}
