/**
 * The balance by which a sale is closed. Each line is added up on two ways: from the lots and the payments on one side,
 * from what was issued, paid and counted on the other. A sale closes when no line has a difference.
 */
import type { ClosingFacts } from '#lib/closing/facts.ts';
import { type ClosingLine, closingLine, type Part, type Why } from '#lib/closing/line.ts';
import { moneyLine } from '#lib/closing/money-line.ts';
import type { Lot, OutcomeKind, SaleFacts } from '#lib/facts.ts';
import { groupBy } from '#lib/group.ts';
import { type BuyerInvoice, invoiceSale } from '#lib/invoice.ts';
import { addCents, type Cents, showMoney, subtractCents, sumCents, ZERO } from '#lib/money.ts';
import { paidOut } from '#lib/payout/accounts.ts';
import { lotAmount } from '#lib/quantity.ts';
import { type SellerSettlement, settleSale } from '#lib/settlement.ts';

export function closingLines(closing: ClosingFacts): ClosingLine[] {
  const { facts } = closing;
  const [sold, settled, owed] = [soldLots(facts), settleSale(facts), invoiceSale(facts)];
  return [
    countLine(facts, 'pieces', (lot) => lot.count ?? 0),
    countLine(facts, 'lots', () => 1),
    hammerLine(closing, sold),
    sheetsLine(closing, settled),
    invoicesLine(closing, owed, sold),
    buyersLine(facts, owed),
    sellersLine(facts, settled),
    moneyLine(closing),
  ];
}

const COUNTED = [
  ['sold', 'Sold'],
  ['passed', 'No-sale'],
  ['withdrawn', 'Withdrawn'],
] as const satisfies readonly (readonly [OutcomeKind, string])[];

function countLine({ lots, outcomes }: SaleFacts, unit: 'pieces' | 'lots', size: (lot: Lot) => number): ClosingLine {
  const sizes = new Map(lots.map((lot) => [lot.lotNo, size(lot)]));
  const of = (wanted: OutcomeKind) =>
    outcomes.filter(({ kind }) => kind === wanted).reduce((so, { lotNo }) => so + (sizes.get(lotNo) ?? 0), 0);
  const called = new Set(outcomes.map(({ lotNo }) => lotNo));
  return closingLine({
    name: unit,
    title: unit === 'pieces' ? 'Every piece went somewhere' : 'Every lot went somewhere',
    unit,
    leftWords: `${unit === 'pieces' ? 'Pieces' : 'Lots'} brought in`,
    left: lots.reduce((so, lot) => so + size(lot), 0),
    rightWords: 'What became of them',
    parts: COUNTED.map(([kind, label]) => ({ label, amount: of(kind) })),
    why: lots
      .filter(({ lotNo }) => !called.has(lotNo))
      .map((lot) => ({
        kind: 'lot',
        ref: lot.lotNo,
        words: `lot ${lot.lotNo} was never called: call it, or withdraw it`,
        amount: size(lot),
      })),
  });
}

interface SoldLot {
  readonly sellerNo: number;
  readonly donated: boolean;
  readonly amountCents: Cents;
}

/** What the lots brought, straight from the hammer prices. */
function soldLots({ lots, outcomes }: SaleFacts): SoldLot[] {
  const byNo = new Map(lots.map((lot) => [lot.lotNo, lot]));
  return outcomes.flatMap(({ lotNo, kind, priceCents }) => {
    const lot = byNo.get(lotNo);
    if (lot === undefined || kind !== 'sold' || priceCents === null) return [];
    return [{ sellerNo: lot.sellerNo, donated: lot.donated, amountCents: lotAmount(priceCents, lot) }];
  });
}

function hammerLine({ facts, sheets }: ClosingFacts, sold: readonly SoldLot[]): ClosingLine {
  const bySeller = groupBy(sold, ({ sellerNo }) => sellerNo);
  const all = [...sheets.values()].map(({ totals }) => totals);
  const part = (label: string, amounts: readonly Cents[]): Part => ({ label, amount: sumCents(amounts) });
  const given = sold.filter(({ donated }) => donated).map(({ amountCents }) => amountCents);
  return closingLine({
    name: 'hammer',
    title: 'What the lots brought is on the sheets',
    unit: 'cents',
    leftWords: 'Hammer prices',
    left: sumCents(sold.map(({ amountCents }) => amountCents)),
    rightWords: 'The sheets as issued',
    parts: [
      part(
        'Nets of the sellers',
        all.map(({ netCents }) => netCents),
      ),
      part(
        'Commission',
        all.map(({ commissionCents }) => commissionCents),
      ),
      part(
        'Fees',
        all.map((one) => addCents(one.lotFeesCents, one.noSaleFeesCents, one.sellerNumberFeeCents)),
      ),
      part(
        'Charges deducted',
        all.map(({ chargesCents }) => chargesCents),
      ),
      part('Donated lots', given),
    ],
    why: facts.sellers.map(({ sellerNo }) => {
      const own = (bySeller.get(sellerNo) ?? []).filter(({ donated }) => !donated);
      const sheet = sheets.get(sellerNo);
      const words = sheet
        ? `seller ${sellerNo}: prices have changed since sheet ${sheet.number}; issue the correction sheet`
        : `seller ${sellerNo} has no sheet yet`;
      const gross = sumCents(own.map(({ amountCents }) => amountCents));
      const amount = subtractCents(gross, sheet?.totals.grossCents ?? ZERO);
      return { kind: 'seller', ref: String(sellerNo), words, amount };
    }),
  });
}

/** A seller number that owes a fee and nothing else gets a sheet too: it is their bill. */
function sheetsLine({ sheets }: ClosingFacts, settled: readonly SellerSettlement[]): ClosingLine {
  return closingLine({
    name: 'sheets',
    title: 'Every sheet is still right',
    unit: 'cents',
    leftWords: 'Nets as they stand',
    left: sumCents(settled.map(({ netCents }) => netCents)),
    rightWords: 'Nets as handed out',
    parts: [{ label: 'On the sheets', amount: sumCents([...sheets.values()].map(({ totals }) => totals.netCents)) }],
    why: settled.map(({ sellerNo, netCents }) => {
      const sheet = sheets.get(sellerNo);
      const words = sheet
        ? `seller ${sellerNo}: sheet ${sheet.number} is no longer right; issue the correction sheet`
        : `seller ${sellerNo} has no sheet yet: issue it`;
      const amount = subtractCents(netCents, sheet?.totals.netCents ?? ZERO);
      return { kind: 'seller', ref: String(sellerNo), words, amount };
    }),
  });
}

/** A buyer who was given no invoice counts with what their lots come to: not everybody wants one. */
function invoicesLine(
  { facts, invoices }: ClosingFacts,
  owed: readonly BuyerInvoice[],
  sold: readonly SoldLot[],
): ClosingLine {
  const totals = new Map(owed.map(({ buyerNo, totalCents }) => [buyerNo, totalCents]));
  const issued = facts.buyers.map(({ buyerNo }) => invoices.get(buyerNo)?.totalCents ?? totals.get(buyerNo) ?? ZERO);
  return closingLine({
    name: 'invoices',
    title: 'The invoices are what was bought',
    unit: 'cents',
    leftWords: 'Sum of the invoices',
    left: sumCents(issued),
    rightWords: 'What was bought',
    parts: [
      { label: 'Hammer prices', amount: sumCents(sold.map(({ amountCents }) => amountCents)) },
      { label: 'Premium', amount: sumCents(owed.map(({ premiumCents }) => premiumCents)) },
      { label: 'Tax', amount: sumCents(owed.map(({ taxCents }) => taxCents)) },
    ],
    why: facts.buyers.flatMap(({ buyerNo }): Why[] => {
      const invoice = invoices.get(buyerNo);
      if (!invoice) return [];
      const amount = subtractCents(invoice.totalCents, totals.get(buyerNo) ?? ZERO);
      const words = `buyer ${buyerNo}: invoice ${invoice.number} is no longer what was bought; issue the correcting one`;
      return [{ kind: 'buyer', ref: String(buyerNo), words, amount }];
    }),
  });
}

function buyersLine(facts: SaleFacts, invoices: readonly BuyerInvoice[]): ClosingLine {
  const owed = new Map(invoices.map(({ buyerNo, totalCents }) => [buyerNo, totalCents]));
  const own = facts.payments.filter(({ buyerNo }) => buyerNo !== null);
  const byBuyer = groupBy(own, ({ buyerNo }) => buyerNo);
  const of = (direction: 'in' | 'out') =>
    sumCents(own.filter((one) => one.direction === direction).map(({ amountCents }) => amountCents));
  return closingLine({
    name: 'buyers',
    title: 'The buyers have paid',
    unit: 'cents',
    leftWords: 'Owed by the buyers',
    left: sumCents(owed.values()),
    rightWords: 'Paid by them',
    parts: [
      { label: 'Taken in', amount: of('in') },
      { label: 'Given back', amount: -of('out') },
    ],
    why: facts.buyers.map(({ buyerNo }) => {
      const paid = -paidOut(byBuyer.get(buyerNo) ?? []);
      const amount = (owed.get(buyerNo) ?? ZERO) - paid;
      return { kind: 'buyer', ref: String(buyerNo), words: `buyer ${buyerNo} ${owes(amount)}`, amount };
    }),
  });
}

function owes(amount: number): string {
  const words = showMoney(Math.abs(amount) as Cents);
  return amount > 0 ? `still owes ${words}` : `paid ${words} too much`;
}

function sellersLine(facts: SaleFacts, settled: readonly SellerSettlement[]): ClosingLine {
  const own = facts.payments.filter(({ sellerNo }) => sellerNo !== null);
  const bySeller = groupBy(own, ({ sellerNo }) => sellerNo);
  const of = (direction: 'in' | 'out') =>
    sumCents(own.filter((one) => one.direction === direction).map(({ amountCents }) => amountCents));
  return closingLine({
    name: 'sellers',
    title: 'The sellers are paid',
    unit: 'cents',
    leftWords: 'Nets of the sellers',
    left: sumCents(settled.map(({ netCents }) => netCents)),
    rightWords: 'Paid to them',
    parts: [
      { label: 'Paid out', amount: of('out') },
      { label: 'Paid in', amount: -of('in') },
    ],
    why: settled.map(({ sellerNo, netCents }) => {
      const amount = subtractCents(netCents, paidOut(bySeller.get(sellerNo) ?? []));
      const words =
        amount > ZERO ? `${showMoney(amount)} still to pay` : `owes ${showMoney(subtractCents(ZERO, amount))}`;
      return { kind: 'seller', ref: String(sellerNo), words: `seller ${sellerNo}: ${words}`, amount };
    }),
  });
}
