/** The proof that nothing is missing: each line has two sides that were added up on different ways. */
import type { Lot, OutcomeKind, SaleFacts } from '#lib/facts.ts';
import { type BuyerInvoice, invoiceSale } from '#lib/invoice.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { addCents, type Cents, sumCents } from '#lib/money.ts';
import { type SellerSettlement, settleSale } from '#lib/settlement.ts';

export type BalanceName = 'buyers' | 'sellers' | 'pieces' | 'lots';

/** One line of the balance. `left`, `right` and `difference` (left less right) are whole cents, pieces or lots. */
export interface BalanceLine {
  readonly name: BalanceName;
  readonly unit: 'cents' | 'pieces' | 'lots';
  readonly leftWords: string;
  readonly rightWords: string;
  readonly left: number;
  readonly right: number;
  readonly difference: number;
}

/** The lines of a sale's balance; a sale that balances has no difference in any. */
export function saleBalance(facts: SaleFacts): BalanceLine[] {
  const invoices = invoiceSale(facts);
  const hammer = hammerOf(facts);
  return [
    buyersLine(invoices, hammer),
    sellersLine(settleSale(facts), hammer),
    countLine(facts, 'pieces', (lot) => lot.count ?? 0),
    countLine(facts, 'lots', () => 1),
  ];
}

interface Hammer {
  readonly allCents: Cents;
  readonly donatedCents: Cents;
}

/** What the lots brought, straight from the hammer prices. */
function hammerOf({ lots, outcomes }: SaleFacts): Hammer {
  const byNo = new Map(lots.map((lot) => [lot.lotNo, lot]));
  const sold = outcomes.flatMap(({ lotNo, kind, priceCents }) => {
    const lot = byNo.get(lotNo);
    if (lot === undefined || kind !== 'sold' || priceCents === null) return [];
    return [{ donated: lot.donated, amountCents: lotAmount(priceCents, lot) }];
  });
  const donated = sold.filter((lot) => lot.donated).map(({ amountCents }) => amountCents);
  return { allCents: sumCents(sold.map(({ amountCents }) => amountCents)), donatedCents: sumCents(donated) };
}

function buyersLine(invoices: readonly BuyerInvoice[], hammer: Hammer): BalanceLine {
  const left = sumCents(invoices.map(({ totalCents }) => totalCents));
  const premium = sumCents(invoices.map(({ premiumCents }) => premiumCents));
  const tax = sumCents(invoices.map(({ taxCents }) => taxCents));
  const words = { leftWords: 'invoices', rightWords: 'hammer prices, premium and tax' };
  return line('buyers', { unit: 'cents', ...words, left, right: addCents(hammer.allCents, premium, tax) });
}

function sellersLine(settlements: readonly SellerSettlement[], hammer: Hammer): BalanceLine {
  const right = sumCents(
    settlements.flatMap((one) => [
      ...one.shares.map(({ shareCents }) => shareCents),
      one.commissionCents,
      one.lotFeesCents,
      one.noSaleFeesCents,
      one.sellerNumberFeeCents,
      one.chargesCents,
    ]),
  );
  const rightWords = 'nets, commission, fees, charges deducted and donated lots';
  const sides = { left: hammer.allCents, right: addCents(right, hammer.donatedCents) };
  return line('sellers', { unit: 'cents', leftWords: 'hammer prices', rightWords, ...sides });
}

function countLine(facts: SaleFacts, unit: 'pieces' | 'lots', size: (lot: Lot) => number): BalanceLine {
  const byNo = new Map(facts.lots.map((lot) => [lot.lotNo, size(lot)]));
  const left = facts.lots.reduce((so, lot) => so + size(lot), 0);
  const byKind: Record<OutcomeKind | 'waiting', number> = { sold: 0, passed: 0, withdrawn: 0, waiting: 0 };
  for (const { lotNo, kind } of facts.outcomes) byKind[kind] += byNo.get(lotNo) ?? 0;
  const called = new Set(facts.outcomes.map(({ lotNo }) => lotNo));
  for (const lot of facts.lots) if (!called.has(lot.lotNo)) byKind.waiting += size(lot);
  const right = byKind.sold + byKind.passed + byKind.withdrawn + byKind.waiting;
  const rightWords = `${byKind.sold} sold, ${byKind.passed} passed, ${byKind.withdrawn} withdrawn, ${byKind.waiting} not yet called`;
  return line(unit, { unit, leftWords: `${unit} brought in`, rightWords, left, right });
}

function line(name: BalanceName, rest: Omit<BalanceLine, 'name' | 'difference'>): BalanceLine {
  return { name, ...rest, difference: rest.left - rest.right };
}
