/** What the association keeps of a sale: by where it comes from, and by the goods that brought it. */

import { type BuyerInvoice, invoiceSale } from '#lib/invoice/invoice.ts';
import type { LotNo } from '#lib/lot/number.ts';
import { addCents, type Cents, negate, showMoney, sumCents, ZERO } from '#lib/money/money.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { cell, type ListPaper, type ListTable, listPaper, NO_ADVICE, strongCell } from '#lib/paper/list.ts';
import { compareCodePoints, groupBy } from '#lib/result/text.ts';
import type { Charge, Payment, SaleFacts } from '#lib/sale/facts.ts';
import { type SellerSettlement, type SheetRow, settleSale } from '#lib/settlement/settlement.ts';
import { clean, dateInWords } from '#lib/settlement/spelling.ts';

/** All money is whole cents. `revenueCents` is the sum of what stands above it in {@link REVENUE_WORDS}. */
export interface Revenue extends RevenueSums {
  readonly revenueCents: Cents;
}

export function revenueOf(facts: SaleFacts): Revenue {
  return sumOfParts(revenueParts(facts), facts.payments);
}

/** By the goods' short names; goods of which no lot was called are left out. */
export function revenueByGoods(facts: SaleFacts): GoodsRevenue[] {
  return goodsOfParts(revenueParts(facts));
}

/** Both at once, so that a large sale is settled once for the two. */
export function saleRevenue(facts: SaleFacts): { readonly revenue: Revenue; readonly byGoods: GoodsRevenue[] } {
  const parts = revenueParts(facts);
  return { revenue: sumOfParts(parts, facts.payments), byGoods: goodsOfParts(parts) };
}

function revenueParts(facts: SaleFacts): RevenuePart[] {
  const goods = new Map(facts.lots.map((lot) => [lot.lotNo, lot.goods]));
  const charges = groupBy(facts.charges, ({ sellerNo }) => sellerNo);
  const sellers = settleSale(facts).map((one) => sellerPart(one, { goods, charges: charges.get(one.sellerNo) ?? [] }));
  return [...sellers, ...invoiceSale(facts).map(buyerPart)];
}

/** `payments` are those of the whole sale, or of people in their own name alone. */
function sumOfParts(parts: readonly RevenuePart[], payments: readonly Payment[]): Revenue {
  const over = (of: (sums: RevenueSums) => Cents) => sumCents(parts.map(({ sums }) => of(sums)));
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
    revenueCents: sumCents(Object.values(own)),
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
interface GoodsRevenue extends GoodsSums {
  /** Commission, fees, premium and donated. */
  readonly revenueCents: Cents;
}

function goodsOfParts(parts: readonly RevenuePart[]): GoodsRevenue[] {
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
      return { goods, lotsSold, hammerCents, ...earned, revenueCents: sumCents(Object.values(earned)) };
    });
}

/** The parts of {@link Revenue} with the words that people read, in the order in which they are shown. */
export const REVENUE_WORDS = [
  ['commissionCents', 'Commission'],
  ['lotFeesCents', 'Lot fees'],
  ['noSaleFeesCents', 'No-sale fees'],
  ['sellerNumbersCents', 'Seller numbers'],
  ['premiumCents', 'Buyer’s premium'],
  ['donatedCents', 'Donated lots'],
  ['duesCents', 'Dues'],
  ['adjustmentsCents', 'Adjustments'],
] as const satisfies readonly (readonly [keyof Revenue, string])[];

/**
 * What one seller number and what one buyer bring the association, so that a large sale's is put together from them.
 */
/** All money is whole cents. */
interface RevenueSums {
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
interface GoodsSums {
  readonly goods: string;
  readonly lotsSold: number;
  readonly hammerCents: Cents;
  readonly commissionCents: Cents;
  readonly feesCents: Cents;
  readonly premiumCents: Cents;
  readonly donatedCents: Cents;
}

interface RevenuePart {
  readonly sums: RevenueSums;
  readonly goods: readonly GoodsSums[];
}

const NOTHING: RevenueSums = {
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
function sellerPart(settled: SellerSettlement, { goods, charges }: OfSeller): RevenuePart {
  const charged = (kind: Charge['kind']) =>
    sumCents(charges.filter((one) => one.kind === kind).map(({ amountCents }) => amountCents));
  const { commissionCents, lotFeesCents, noSaleFeesCents, sellerNumberFeeCents, rows } = settled;
  return {
    sums: {
      ...NOTHING,
      commissionCents,
      lotFeesCents,
      noSaleFeesCents,
      sellerNumbersCents: sellerNumberFeeCents,
      donatedCents: donatedOf(rows),
      duesCents: charged('dues'),
      adjustmentsCents: charged('adjustment'),
      advancesCents: charged('advance'),
    },
    goods: [...groupBy(rows, ({ lotNo }) => goods.get(lotNo) ?? '')].map(([code, own]) => ({
      goods: code,
      lotsSold: own.filter(({ outcome }) => outcome === 'sold').length,
      hammerCents: sumCents(own.map(({ amountCents }) => amountCents)),
      commissionCents: sumCents(own.map((row) => row.commissionCents)),
      feesCents: sumCents(own.map(({ feesCents }) => feesCents)),
      premiumCents: ZERO,
      donatedCents: donatedOf(own),
    })),
  };
}

function donatedOf(rows: readonly SheetRow[]): Cents {
  return sumCents(rows.filter(({ donated }) => donated).map(({ amountCents }) => amountCents));
}

/** The premium and the tax; what the lots brought is the sellers'. */
function buyerPart({ rows, premiumCents, taxCents }: BuyerInvoice): RevenuePart {
  return {
    sums: { ...NOTHING, premiumCents, taxCents },
    goods: [...groupBy(rows, ({ goods }) => goods)].map(([goods, own]) => ({
      goods,
      lotsSold: 0,
      hammerCents: ZERO,
      commissionCents: ZERO,
      feesCents: ZERO,
      donatedCents: ZERO,
      premiumCents: sumCents(own.map((row) => row.premiumCents)),
    })),
  };
}

/** What the association keeps, this sale beside the one before, as a finished list. */
const ROWS = [
  ...REVENUE_WORDS,
  ['revenueCents', 'Kept in all'],
  ['taxCents', 'Sales tax to remit, not ours'],
  ['advancesCents', 'Advances got back, not earned'],
] as const satisfies readonly (readonly [keyof Revenue, string])[];

/** What a sale left with the association, and by which goods. */
export interface SaleRevenue {
  /** The name of each kind of goods by its short name. */
  readonly goodsNames: ReadonlyMap<string, string>;
  readonly revenue: Revenue;
  readonly byGoods: readonly GoodsRevenue[];
}

/** The sale before this one. */
interface Before {
  /** ISO 8601 date. */
  readonly heldOn: string;
  readonly revenue: Revenue;
}

/** `before` is null where the book has no sale before this one. */
export function revenuePaper(context: PaperContext, now: SaleRevenue, before: Before | null): ListPaper {
  return listPaper(context, {
    title: 'What the association keeps',
    tables: [sumsTable(now.revenue, before), goodsTable(now)],
    caution: NO_ADVICE,
  });
}

function sumsTable(now: Revenue, before: Before | null): ListTable {
  return {
    title: 'Where it comes from',
    columns: [
      { kind: 'words', words: '' },
      { kind: 'money', words: 'This sale' },
      { kind: 'money', words: before ? dateInWords(before.heldOn) : 'None before' },
    ],
    rows: ROWS.map(([name, words]) => {
      const made = name === 'revenueCents' ? strongCell : cell;
      return [made(words), made(showMoney(now[name])), made(before ? showMoney(before.revenue[name]) : '')];
    }),
    none: '',
    sum: '',
  };
}

function goodsTable({ goodsNames, byGoods }: SaleRevenue): ListTable {
  return {
    title: 'By goods',
    columns: [
      { kind: 'words', words: 'Goods' },
      ...['Hammer', 'Commission', 'Fees', 'Premium', 'Donated', 'Kept'].map((words) => ({
        kind: 'money' as const,
        words,
      })),
    ],
    rows: byGoods.map((one) => [
      cell(clean(goodsNames.get(one.goods) ?? one.goods), `${one.lotsSold} sold`),
      ...[
        one.hammerCents,
        one.commissionCents,
        one.feesCents,
        one.premiumCents,
        one.donatedCents,
        one.revenueCents,
      ].map((amount) => cell(showMoney(amount))),
    ]),
    none: 'Nothing was called yet.',
    sum: '',
  };
}
