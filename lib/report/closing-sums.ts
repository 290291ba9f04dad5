/** What one seller number and what one buyer adds to the balance of a sale. The lines are put together from these. */
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import type { LotNo } from '#lib/lot/number.ts';
import { type Cents, sumCents, sumOf, ZERO } from '#lib/money/money.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Lot, Outcome, OutcomeKind, Payment } from '#lib/sale/facts.ts';
import { isHandedOver, paidIn, paidOut } from '#lib/seller/account.ts';
import type { SheetTotals } from '#lib/settlement/model.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import type { ClosingFacts } from './closing-line.ts';

interface Many {
  readonly lots: number;
  readonly pieces: number;
}

export interface SellerSums extends Many {
  readonly sellerNo: number;
  readonly became: Readonly<Record<OutcomeKind, Many>>;
  /** The lots of which nothing stands. */
  readonly notCalled: readonly { readonly lotNo: LotNo; readonly pieces: number }[];
  /** Straight from the hammer prices, donated lots too. */
  readonly hammerCents: Cents;
  readonly donatedCents: Cents;
  readonly netCents: Cents;
  readonly sheet: { readonly number: number; readonly totals: SheetTotals } | null;
  readonly paidOutCents: Cents;
  readonly paidInCents: Cents;
  /** Out less in: what was kept of the net for what the person bought, less what the person owed and was given up. */
  readonly setOffCents: Cents;
  readonly writtenOffCents: Cents;
  readonly checkFeesCents: Cents;
}

export interface BuyerSums {
  readonly buyerNo: number;
  readonly premiumCents: Cents;
  readonly taxCents: Cents;
  readonly totalCents: Cents;
  readonly invoice: { readonly number: number; readonly totalCents: Cents } | null;
  readonly takenInCents: Cents;
  readonly givenBackCents: Cents;
  readonly setOffCents: Cents;
  readonly writtenOffCents: Cents;
  /** Below nothing: a fee that is charged adds to what is owed. */
  readonly checkFeesCents: Cents;
}

/** Of every seller number in the facts, in the order of their numbers. */
export function sellerSums({ facts, sheets }: ClosingFacts): SellerSums[] {
  const lots = groupBy(facts.lots, ({ sellerNo }) => sellerNo);
  const outcomes = new Map(facts.outcomes.map((outcome) => [outcome.lotNo, outcome]));
  const payments = groupBy(facts.payments, ({ sellerNo }) => sellerNo);
  return settleSale(facts).map(({ sellerNo, netCents }) => {
    const own = payments.get(sellerNo) ?? [];
    return {
      sellerNo,
      netCents,
      sheet: sheets.get(sellerNo) ?? null,
      ...lotSums(lots.get(sellerNo) ?? [], outcomes),
      ...{ paidOutCents: handed(own, 'out'), paidInCents: handed(own, 'in') },
      setOffCents: paidOut(by(own, 'set_off')),
      writtenOffCents: paidOut(by(own, 'written_off')),
      checkFeesCents: paidOut(by(own, 'check_fee')),
    };
  });
}

function lotSums(lots: readonly Lot[], outcomes: ReadonlyMap<LotNo, Outcome>) {
  const none = () => ({ lots: 0, pieces: 0 });
  const became = { sold: none(), passed: none(), withdrawn: none(), bought_back: none(), unpaid: none() };
  const hammer: Cents[] = [];
  const donated: Cents[] = [];
  const notCalled: SellerSums['notCalled'][number][] = [];
  for (const lot of lots) {
    const pieces = lot.count ?? 0;
    const outcome = outcomes.get(lot.lotNo);
    if (outcome === undefined) {
      notCalled.push({ lotNo: lot.lotNo, pieces });
      continue;
    }
    became[outcome.kind].lots += 1;
    became[outcome.kind].pieces += pieces;
    if (outcome.kind !== 'sold' || outcome.priceCents === null) continue;
    const amount = lotAmount(outcome.priceCents, lot);
    hammer.push(amount);
    if (lot.donated) donated.push(amount);
  }
  const pieces = lots.reduce((so, { count }) => so + (count ?? 0), 0);
  const sums = { hammerCents: sumCents(hammer), donatedCents: sumCents(donated) };
  return { lots: lots.length, pieces, became, notCalled, ...sums };
}

/** Of every buyer in the facts, in the order of their numbers. */
export function buyerSums({ facts, invoices }: ClosingFacts): BuyerSums[] {
  const bills = new Map(invoiceSale(facts).map((bill) => [bill.buyerNo, bill]));
  const payments = groupBy(facts.payments, ({ buyerNo }) => buyerNo);
  return [...facts.buyers]
    .sort((a, b) => a.buyerNo - b.buyerNo)
    .map(({ buyerNo }) => {
      const { premiumCents, taxCents, totalCents } = bills.get(buyerNo) ?? NOTHING;
      const own = payments.get(buyerNo) ?? [];
      return {
        buyerNo,
        premiumCents,
        taxCents,
        totalCents,
        invoice: invoices.get(buyerNo) ?? null,
        ...{ takenInCents: handed(own, 'in'), givenBackCents: handed(own, 'out') },
        setOffCents: paidIn(by(own, 'set_off')),
        writtenOffCents: paidIn(by(own, 'written_off')),
        checkFeesCents: paidIn(by(own, 'check_fee')),
      };
    });
}

const NOTHING = { premiumCents: ZERO, taxCents: ZERO, totalCents: ZERO };

function handed(payments: readonly Payment[], wanted: Payment['direction']): Cents {
  const own = payments.filter((payment) => payment.direction === wanted && isHandedOver(payment));
  return sumOf(own, 'amountCents');
}

const by = (payments: readonly Payment[], wanted: Payment['method']) =>
  payments.filter(({ method }) => method === wanted);
