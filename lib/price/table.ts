/** What goods brought, over one sale or many. Sum 10 of docs/exchange.md. */
import { amountEach, lotAmount } from '#lib/lot/amount.ts';
import { Decimal, type Numeric, roundHalfUp } from '#lib/money/decimal.ts';
import { type Cents, formatWeight, sumOf } from '#lib/money/money.ts';
import { compareCodePoints, groupBy } from '#lib/result/text.ts';
import type { Lot, Measured, SaleFacts } from '#lib/sale/facts.ts';

/** What a price in the table stands for. */
export type PriceMeasure = 'piece' | 'lb' | 'oz';

interface SoldGoods {
  readonly season: string;
  readonly goods: string;
  readonly section: string;
  readonly measure: PriceMeasure;
  readonly quantityThousandths: number;
}

/** One row. Prices are whole cents for one piece, pound or ounce. */
export interface PriceRow extends SoldGoods {
  readonly lots: number;
  readonly quantity: string;
  readonly lowCents: Cents;
  readonly p25Cents: Cents;
  readonly medianCents: Cents;
  readonly p75Cents: Cents;
  readonly highCents: Cents;
  readonly averageCents: Cents;
  readonly totalCents: Cents;
}

export interface PricedLot extends SoldGoods {
  readonly priceCents: Cents;
  /** How many observations the lot makes: its pieces, or 1 by weight. */
  readonly times: number;
  readonly amountCents: Cents;
}

/** The price table of one sale, or of many side by side, sorted by season, goods, section and measure. */
export function priceTable(facts: SaleFacts | readonly SaleFacts[]): PriceRow[] {
  const sales: readonly SaleFacts[] = 'sale' in facts ? [facts] : facts;
  return priceRows(sales.flatMap(pricedLots));
}

/** The table of lots that were priced already, such as those the book keeps over the years. */
export function priceRows(lots: Iterable<PricedLot>): PriceRow[] {
  const groups = groupBy(lots, (lot) => JSON.stringify([lot.season, lot.goods, lot.section, lot.measure]));
  return [...groups.values()].flatMap(rowOf).sort(compareRows);
}

function pricedLots({ sale, lots, outcomes }: SaleFacts): PricedLot[] {
  const prices = new Map<string, Cents | null>();
  for (const outcome of outcomes) if (outcome.kind === 'sold') prices.set(outcome.lotNo, outcome.priceCents);
  return lots.flatMap((lot) => {
    const price = prices.get(lot.lotNo) ?? null;
    return price === null ? [] : [pricedLot(lot, price, sale.season)];
  });
}

export type LotToPrice = Measured & Pick<Lot, 'goods' | 'section'>;

/**
 * Sum 10: each piece is one observation; of goods by weight, each lot is one. A lot sold by the lot counts as its pieces,
 * each at its part of the amount, rounded.
 */
export function pricedLot(lot: LotToPrice, hammerCents: Cents, season: string): PricedLot {
  const { goods, section, by, count } = lot;
  const amountCents = lotAmount(hammerCents, lot);
  const said = { season, goods, section, amountCents };
  if (by === 'lb' || by === 'oz') {
    const quantityThousandths = lot.weightThousandths ?? 0;
    return { ...said, measure: by, priceCents: hammerCents, times: 1, quantityThousandths };
  }
  if (count === null) throw new RangeError(`a lot of ${goods} has no number of pieces`);
  const priceCents = by === 'piece' ? hammerCents : amountEach(amountCents, count);
  return { ...said, measure: 'piece', priceCents, times: count, quantityThousandths: count * 1000 };
}

/**
 * The one row of lots that go together; they are headed as the first of them. No row of no lots.
 * Sum 10: quartiles are of type 7 of Hyndman & Fan (1996), rounded at the end. The average is the whole amount by the
 * whole quantity, rounded.
 */
export function rowOf(group: readonly PricedLot[]): PriceRow[] {
  const sorted = group.map(({ priceCents, times }) => ({ value: priceCents, times })).sort((a, b) => a.value - b.value);
  const [first] = group;
  if (first === undefined) return [];
  const { season, goods, section, measure } = first;
  const quantityThousandths = group.reduce((so, lot) => so + lot.quantityThousandths, 0);
  const totalCents = sumOf(group, 'amountCents');
  const at = (p: string) => roundHalfUp(quantileType7(sorted, p));
  return [
    {
      season,
      goods,
      section,
      measure,
      lots: group.length,
      quantity: formatWeight(quantityThousandths),
      quantityThousandths,
      lowCents: at('0'),
      p25Cents: at('0.25'),
      medianCents: at('0.5'),
      p75Cents: at('0.75'),
      highCents: at('1'),
      averageCents: roundHalfUp(new Decimal(totalCents).times(1000).dividedBy(quantityThousandths)),
      totalCents,
    },
  ];
}

function compareRows(a: PriceRow, b: PriceRow): number {
  return (
    compareCodePoints(a.season, b.season) ||
    compareCodePoints(a.goods, b.goods) ||
    compareCodePoints(a.section, b.section) ||
    compareCodePoints(a.measure, b.measure)
  );
}

/** A value that was observed so many times; a lot of 10,000 pieces is one of these. */
export interface Observation {
  readonly value: Numeric;
  readonly times: number;
}

/**
 * The quantile of type 7 (Hyndman & Fan 1996): with n observations in order, the point (n − 1)p + 1, on the straight
 * line between its neighbours. `observations` are sorted by value; `p` is from 0 to 1. The answer is not rounded.
 */
export function quantileType7(observations: readonly Observation[], p: Numeric): Decimal {
  const total = observations.reduce((so, { times }) => so + times, 0);
  if (total < 1) throw new RangeError('a quantile needs at least one observation');
  const at = new Decimal(p).times(total - 1);
  if (at.isNegative() || at.greaterThan(total - 1)) throw new RangeError('p goes from 0 to 1');
  const below = at.floor();
  const low = nth(observations, below.toNumber());
  const part = at.minus(below);
  if (part.isZero()) return low;
  return nth(observations, below.toNumber() + 1)
    .minus(low)
    .times(part)
    .plus(low);
}

/** The observation at a place counted from 0, without laying the pieces out one by one. */
function nth(observations: readonly Observation[], place: number): Decimal {
  let passed = 0;
  for (const { value, times } of observations) {
    passed += times;
    if (place < passed) return new Decimal(value);
  }
  throw new RangeError(`there is no observation ${place}`);
}
