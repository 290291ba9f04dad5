/**
 * The balance by which a sale is closed. Each line is added up on two ways: from the lots and the payments on one side,
 * from what was issued, paid and counted on the other. A sale closes when no line has a difference.
 */
import { compareLotNo } from '#lib/lot/number.ts';
import { addCents, type Cents, negate, showMoney, subtractCents, sumCents, sumOf, ZERO } from '#lib/money/money.ts';
import type { OutcomeKind } from '#lib/sale/facts.ts';
import type { SheetTotals } from '#lib/settlement/model.ts';
import { withoutSign } from '#lib/settlement/spelling.ts';
import { type ClosingFacts, type ClosingLine, closingLine, moneyLine, type Part, type Why } from './closing-line.ts';
import { type BuyerSums, buyerSums, type SellerSums, sellerSums } from './closing-sums.ts';

export function closingLines(closing: ClosingFacts): ClosingLine[] {
  const sellers = sellerSums(closing);
  const buyers = buyerSums(closing);
  const hammer = sumOf(sellers, 'hammerCents');
  const notCalled = sellers.flatMap((one) => one.notCalled).sort((a, b) => compareLotNo(a.lotNo, b.lotNo));
  return [
    countLine('pieces', sellers, notCalled),
    countLine('lots', sellers, notCalled),
    hammerLine(sellers, hammer),
    sheetsLine(sellers),
    invoicesLine(buyers, hammer),
    buyersLine(buyers),
    sellersLine(sellers),
    moneyLine(closing),
  ];
}

/** What is seldom stands there only where there was some. */
const SELDOM: readonly OutcomeKind[] = ['bought_back', 'unpaid'];
const COUNTED = [
  ['sold', 'Sold'],
  ['passed', 'No-sale'],
  ['withdrawn', 'Withdrawn'],
  ['bought_back', 'Bought back'],
  ['unpaid', 'Not paid for'],
] as const satisfies readonly (readonly [OutcomeKind, string])[];

function countLine(
  unit: 'pieces' | 'lots',
  sellers: readonly SellerSums[],
  notCalled: SellerSums['notCalled'],
): ClosingLine {
  const sum = (of: (one: SellerSums) => number) => sellers.reduce((so, one) => so + of(one), 0);
  return closingLine({
    name: unit,
    title: unit === 'pieces' ? 'Every piece went somewhere' : 'Every lot went somewhere',
    unit,
    leftWords: `${unit === 'pieces' ? 'Pieces' : 'Lots'} brought in`,
    left: sum((one) => one[unit]),
    rightWords: 'What became of them',
    parts: COUNTED.filter(([kind]) => !SELDOM.includes(kind) || sum(({ became }) => became[kind].lots) > 0).map(
      ([kind, label]) => ({ label, amount: sum(({ became }) => became[kind][unit]) }),
    ),
    why: notCalled.map(({ lotNo, pieces }) => ({
      kind: 'lot',
      ref: lotNo,
      words: `lot ${lotNo} was never called: call it, or withdraw it`,
      amount: unit === 'pieces' ? pieces : 1,
    })),
  });
}

function hammerLine(sellers: readonly SellerSums[], hammer: Cents): ClosingLine {
  const part = (label: string, of: (totals: SheetTotals) => Cents): Part => {
    return { label, amount: sumCents(sellers.map(({ sheet }) => (sheet ? of(sheet.totals) : ZERO))) };
  };
  return closingLine({
    name: 'hammer',
    title: 'What the lots brought is on the sheets',
    leftWords: 'Hammer prices',
    left: hammer,
    rightWords: 'The sheets as issued',
    parts: [
      part('Nets of the sellers', ({ netCents }) => netCents),
      part('Commission', ({ commissionCents }) => commissionCents),
      part('Fees', (one) => addCents(one.lotFeesCents, one.noSaleFeesCents, one.sellerNumberFeeCents)),
      part('Charges deducted', ({ chargesCents }) => chargesCents),
      { label: 'Donated lots', amount: sumOf(sellers, 'donatedCents') },
    ],
    why: sellers.map(({ sellerNo, sheet, hammerCents, donatedCents }) => {
      const words = sheet
        ? `seller ${sellerNo}: prices have changed since sheet ${sheet.number}; issue the correction sheet`
        : `seller ${sellerNo} has no sheet yet`;
      const gross = subtractCents(hammerCents, donatedCents);
      const amount = subtractCents(gross, sheet?.totals.grossCents ?? ZERO);
      return { kind: 'seller', ref: String(sellerNo), words, amount };
    }),
  });
}

/** A seller number that owes a fee and nothing else gets a sheet too: it is their bill. */
function sheetsLine(sellers: readonly SellerSums[]): ClosingLine {
  return closingLine({
    name: 'sheets',
    title: 'Every sheet is still right',
    leftWords: 'Nets as they stand',
    left: sumOf(sellers, 'netCents'),
    rightWords: 'Nets as handed out',
    parts: [{ label: 'On the sheets', amount: sumCents(sellers.map(({ sheet }) => sheet?.totals.netCents ?? ZERO)) }],
    why: sellers.map(({ sellerNo, netCents, sheet }) => {
      const words = sheet
        ? `seller ${sellerNo}: sheet ${sheet.number} is no longer right; issue the correction sheet`
        : `seller ${sellerNo} has no sheet yet: issue it`;
      const amount = subtractCents(netCents, sheet?.totals.netCents ?? ZERO);
      return { kind: 'seller', ref: String(sellerNo), words, amount };
    }),
  });
}

/** A buyer who was given no invoice counts with what their lots come to: not everybody wants one. */
function invoicesLine(buyers: readonly BuyerSums[], hammer: Cents): ClosingLine {
  return closingLine({
    name: 'invoices',
    title: 'The invoices are what was bought',
    leftWords: 'Sum of the invoices',
    left: sumCents(buyers.map(({ invoice, totalCents }) => invoice?.totalCents ?? totalCents)),
    rightWords: 'What was bought',
    parts: [
      { label: 'Hammer prices', amount: hammer },
      { label: 'Premium', amount: sumOf(buyers, 'premiumCents') },
      { label: 'Tax', amount: sumOf(buyers, 'taxCents') },
    ],
    why: buyers.flatMap(({ buyerNo, invoice, totalCents }): Why[] => {
      if (!invoice) return [];
      const amount = subtractCents(invoice.totalCents, totalCents);
      const words = `buyer ${buyerNo}: invoice ${invoice.number} is no longer what was bought; issue the correcting one`;
      return [{ kind: 'buyer', ref: String(buyerNo), words, amount }];
    }),
  });
}

function buyersLine(buyers: readonly BuyerSums[]): ClosingLine {
  return closingLine({
    name: 'buyers',
    title: 'The buyers have paid',
    leftWords: 'Owed by the buyers',
    left: sumOf(buyers, 'totalCents'),
    rightWords: 'Paid by them',
    parts: [
      { label: 'Taken in', amount: sumOf(buyers, 'takenInCents') },
      { label: 'Given back', amount: -sumOf(buyers, 'givenBackCents') },
      ...parts(buyers),
    ],
    why: buyers.map(({ buyerNo, totalCents, takenInCents, givenBackCents, ...one }) => {
      const paid = sumCents([takenInCents, negate(givenBackCents), ...apart(one)]);
      const amount = subtractCents(totalCents, paid);
      const words = amount > ZERO ? `still owes ${showMoney(amount)}` : `paid ${withoutSign(amount)} too much`;
      return { kind: 'buyer', ref: String(buyerNo), words: `buyer ${buyerNo} ${words}`, amount };
    }),
  });
}

/** What pays an account, or adds to it, and moves no money. */
type Apart = Pick<BuyerSums, 'setOffCents' | 'writtenOffCents' | 'checkFeesCents'>;

function apart({ setOffCents, writtenOffCents, checkFeesCents }: Apart): Cents[] {
  return [setOffCents, writtenOffCents, checkFeesCents];
}

/** Only a sale that has some says them. */
function parts(of: readonly Apart[]): Part[] {
  const said: Part[] = [
    { label: 'Set off', amount: sumOf(of, 'setOffCents') },
    { label: 'Written off', amount: sumOf(of, 'writtenOffCents') },
    { label: 'Returned-check fees', amount: sumOf(of, 'checkFeesCents') },
  ];
  return said.filter(({ amount }) => amount !== 0);
}

function sellersLine(sellers: readonly SellerSums[]): ClosingLine {
  return closingLine({
    name: 'sellers',
    title: 'The sellers are paid',
    leftWords: 'Nets of the sellers',
    left: sumOf(sellers, 'netCents'),
    rightWords: 'Paid to them',
    parts: [
      { label: 'Paid out', amount: sumOf(sellers, 'paidOutCents') },
      { label: 'Paid in', amount: -sumOf(sellers, 'paidInCents') },
      ...parts(sellers),
    ],
    why: sellers.map(({ sellerNo, netCents, paidOutCents, paidInCents, ...one }) => {
      const paid = sumCents([paidOutCents, negate(paidInCents), ...apart(one)]);
      const amount = subtractCents(netCents, paid);
      const words = amount > ZERO ? `${showMoney(amount)} still to pay` : `owes ${withoutSign(amount)}`;
      return { kind: 'seller', ref: String(sellerNo), words: `seller ${sellerNo}: ${words}`, amount };
    }),
  });
}
