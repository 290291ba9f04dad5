/** The association's revenue of a sale: by where it comes from, and by the goods that brought it. */
import { longDate } from '#lib/date/date.ts';
import { type BuyerInvoice, invoiceSale } from '#lib/invoice/invoice.ts';
import { addCents, type Cents, negate, showMoney, sumCents, sumOf, ZERO } from '#lib/money/money.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { cell, type ListPaper, type ListTable, listPaper, NO_ADVICE, strongCell, tableOf } from '#lib/paper/list.ts';
import { takenOf } from '#lib/payment/taking.ts';
import { compareCodePoints, groupBy } from '#lib/result/text.ts';
import type { ChargeKind, SaleFacts } from '#lib/sale/facts.ts';
import { paidIn, paidOut } from '#lib/seller/account.ts';
import { type SellerSettlement, type SheetRow, settleSale } from '#lib/settlement/settlement.ts';
import { clean } from '#lib/settlement/spelling.ts';

/** The takings by kind: of these a list shows what there is. */
const TAKEN_WORDS = [
  ['raffleCents', 'Raffle'],
  ['doorCents', 'Door'],
  ['donationsCents', 'Donations of money'],
  ['foodCents', 'Food'],
  ['otherTakingsCents', 'Other takings'],
] as const;

/** What the revenue is made of, with the words that people read, in the order in which it is shown. */
const REVENUE_WORDS = [
  ['commissionCents', 'Commission'],
  ['lotFeesCents', 'Lot fees'],
  ['noSaleFeesCents', 'No-sale fees'],
  ['sellerNumbersCents', 'Seller numbers'],
  ['premiumCents', 'Buyer’s premium'],
  ['donatedCents', 'Donated lots'],
  ['duesCents', 'Dues'],
  ['adjustmentsCents', 'Adjustments'],
  ...TAKEN_WORDS,
  ['checkFeesCents', 'Returned-check fees'],
  ['overShortCents', 'Cash over and short'],
  ['cardFeesCents', 'Card fees'],
  ['badDebtsCents', 'Debts written off'],
] as const;

export interface Revenue extends Readonly<Record<(typeof REVENUE_WORDS)[number][0], Cents>> {
  /** The sum of all in {@link REVENUE_WORDS}. */
  readonly revenueCents: Cents;
  /** Sales tax that is not the association's but the State's. */
  readonly taxCents: Cents;
  /** Advances that came back out of the proceeds. */
  readonly advancesCents: Cents;
}

interface GoodsRevenue {
  readonly goods: string;
  readonly lotsSold: number;
  readonly hammerCents: Cents;
  readonly commissionCents: Cents;
  readonly feesCents: Cents;
  readonly premiumCents: Cents;
  readonly donatedCents: Cents;
  /** Commission, fees, premium and donated. */
  readonly revenueCents: Cents;
}

interface Settled {
  readonly facts: SaleFacts;
  readonly overShortCents: Cents;
  readonly sellers: readonly SellerSettlement[];
  readonly buyers: readonly BuyerInvoice[];
}

/**
 * The revenue by where it comes from, and by the goods' short names, without goods of which no lot was called.
 * `overShortCents` is what the drawer was over, less what it was short (`overShortOf`): no fact of a sale says it.
 */
export function saleRevenue(
  facts: SaleFacts,
  overShortCents: Cents,
): { readonly revenue: Revenue; readonly byGoods: GoodsRevenue[] } {
  const settled = { facts, overShortCents, sellers: settleSale(facts), buyers: invoiceSale(facts) };
  return { revenue: sumsOf(settled), byGoods: goodsOf(settled) };
}

export function revenueOf(facts: SaleFacts, overShortCents: Cents): Revenue {
  return saleRevenue(facts, overShortCents).revenue;
}

function sumsOf({ facts, overShortCents, sellers, buyers }: Settled): Revenue {
  const charged = (wanted: ChargeKind) => {
    const charges = facts.charges.filter(({ kind }) => kind === wanted);
    return sumOf(charges, 'amountCents');
  };
  // Money of a person under neither a buyer's nor a seller's number is always dues.
  const ofPeople = facts.payments.filter(({ buyerNo, sellerNo }) => buyerNo === null && sellerNo === null);
  const own = {
    commissionCents: sumOf(sellers, 'commissionCents'),
    lotFeesCents: sumOf(sellers, 'lotFeesCents'),
    noSaleFeesCents: sumOf(sellers, 'noSaleFeesCents'),
    sellerNumbersCents: sumOf(sellers, 'sellerNumberFeeCents'),
    premiumCents: sumOf(buyers, 'premiumCents'),
    donatedCents: donatedOf(sellers.flatMap(({ rows }) => rows)),
    duesCents: addCents(charged('dues'), paidIn(ofPeople)),
    adjustmentsCents: charged('adjustment'),
    raffleCents: takenOf(facts.takings, 'raffle'),
    doorCents: takenOf(facts.takings, 'door'),
    donationsCents: takenOf(facts.takings, 'donation'),
    foodCents: takenOf(facts.takings, 'food'),
    otherTakingsCents: takenOf(facts.takings, 'other'),
    checkFeesCents: paidOut(facts.payments.filter(({ method }) => method === 'check_fee')),
    overShortCents,
    // Below nothing: what a processor kept.
    cardFeesCents: negate(sumOf(facts.cardFees, 'feeCents')),
    // Below nothing: what buyers or sellers owed and nobody expects any more.
    badDebtsCents: negate(paidIn(facts.payments.filter(({ method }) => method === 'written_off'))),
  };
  return {
    ...own,
    revenueCents: sumCents(Object.values(own)),
    taxCents: sumOf(buyers, 'taxCents'),
    advancesCents: charged('advance'),
  };
}

function goodsOf({ facts, sellers, buyers }: Settled): GoodsRevenue[] {
  const goodsOfLot = new Map(facts.lots.map(({ lotNo, goods }) => [lotNo, goods]));
  const sheetRows = sellers.flatMap(({ rows }) => rows);
  const invoiceRows = buyers.flatMap(({ rows }) => rows);
  const called = groupBy(sheetRows, ({ lotNo }) => goodsOfLot.get(lotNo) ?? '');
  const bought = groupBy(invoiceRows, ({ goods }) => goods);
  return [...called]
    .sort(([one], [other]) => compareCodePoints(one, other))
    .map(([goods, rows]) => {
      const earned = {
        commissionCents: sumOf(rows, 'commissionCents'),
        feesCents: sumOf(rows, 'feesCents'),
        premiumCents: sumOf(bought.get(goods) ?? [], 'premiumCents'),
        donatedCents: donatedOf(rows),
      };
      const lotsSold = rows.filter(({ outcome }) => outcome === 'sold').length;
      const revenueCents = sumCents(Object.values(earned));
      return { goods, lotsSold, hammerCents: sumOf(rows, 'amountCents'), ...earned, revenueCents };
    });
}

function donatedOf(rows: readonly SheetRow[]): Cents {
  const given = rows.filter(({ donated }) => donated);
  return sumOf(given, 'amountCents');
}

/** What the revenue is made of, without the kinds of takings, the over and short and the card fees, of which none of these sales has any. */
export function revenueWords(...sales: readonly Revenue[]): (typeof REVENUE_WORDS)[number][] {
  const seldom = new Set<string>(['overShortCents', 'cardFeesCents', ...TAKEN_WORDS.map(([name]) => name)]);
  return REVENUE_WORDS.filter(([name]) => !seldom.has(name) || sales.some((revenue) => revenue[name] !== ZERO));
}

const SUMS = [
  ['revenueCents', 'Kept in all'],
  ['taxCents', 'Sales tax to remit, not ours'],
  ['advancesCents', 'Advances got back, not earned'],
] as const;

export interface SaleRevenue {
  /** The name of each kind of goods by its short name. */
  readonly goodsNames: ReadonlyMap<string, string>;
  readonly revenue: Revenue;
  readonly byGoods: readonly GoodsRevenue[];
}

type Before = { readonly heldOn: string; readonly revenue: Revenue };

/** This sale's revenue beside that of the one before; null where the book has none before. */
export function revenuePaper(context: PaperContext, now: SaleRevenue, before: Before | null): ListPaper {
  return listPaper(context, {
    title: 'What the association keeps',
    tables: [sumsTable(now.revenue, before), goodsTable(now)],
    caution: NO_ADVICE,
  });
}

function sumsTable(now: Revenue, before: Before | null): ListTable {
  const made = (name: keyof Revenue, words: string) => (name === 'revenueCents' ? strongCell(words) : cell(words));
  const earlier = before ? longDate(before.heldOn) : 'None before';
  return tableOf(
    [...revenueWords(now, ...(before ? [before.revenue] : [])), ...SUMS],
    [
      ['words', '', ([name, words]) => made(name, words)],
      ['money', 'This sale', ([name]) => made(name, showMoney(now[name]))],
      ['money', earlier, ([name]) => made(name, before ? showMoney(before.revenue[name]) : '')],
    ],
    { title: 'Where it comes from' },
  );
}

function goodsTable({ goodsNames, byGoods }: SaleRevenue): ListTable {
  return tableOf(
    byGoods,
    [
      ['words', 'Goods', (one) => cell(clean(goodsNames.get(one.goods) ?? one.goods), `${one.lotsSold} sold`)],
      ['money', 'Hammer', (one) => showMoney(one.hammerCents)],
      ['money', 'Commission', (one) => showMoney(one.commissionCents)],
      ['money', 'Fees', (one) => showMoney(one.feesCents)],
      ['money', 'Premium', (one) => showMoney(one.premiumCents)],
      ['money', 'Donated', (one) => showMoney(one.donatedCents)],
      ['money', 'Kept', (one) => showMoney(one.revenueCents)],
    ],
    { title: 'By goods', none: 'Nothing was called yet.' },
  );
}
