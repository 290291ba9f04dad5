/** The closing report: the balance at zero, what the association keeps, every seller and buyer, and the money by method. */

import { buyerAccounts } from '#lib/buyer/buyer.ts';
import { longDate } from '#lib/date/date.ts';
import { type Cents, negate, showMoney, ZERO } from '#lib/money/money.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { cell, type ListPaper, type ListTable, listPaper, NO_ADVICE, tableOf } from '#lib/paper/list.ts';
import { type PaidSplit, splitPaid } from '#lib/seller/account.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { joined, lower } from '#lib/settlement/spelling.ts';
import {
  amountWords,
  type ClosingFacts,
  type ClosingLine,
  overShortOf,
  type Part,
  type Unfinished,
} from './closing-line.ts';
import { revenueOf, revenueWords } from './revenue.ts';

export interface ClosingReportInput {
  readonly context: PaperContext;
  readonly closing: ClosingFacts;
  readonly lines: readonly ClosingLine[];
  /** What was left so when the sale was closed. */
  readonly unfinished: readonly Unfinished[];
  readonly sellerNames: ReadonlyMap<number, readonly string[]>;
  readonly buyerNames: ReadonlyMap<number, string>;
  readonly closedBy: string;
}

export function closingReport(input: ClosingReportInput): ListPaper {
  const { context, lines, closing, unfinished, closedBy } = input;
  const left = unfinished.flatMap(({ why }) => why.map(({ words, printed }) => printed ?? words));
  return listPaper(context, {
    title: 'Closing report',
    issued: true,
    issuedWords: `Closed ${longDate(context.issuedOn)} by ${closedBy}`,
    opening: [
      'Every line of the balance is at zero, and the sale is closed. It can be opened again only with a reason.',
    ],
    tables: [balanceTable(lines), partsTable(lines), revenueTable(closing), sellersTable(input), buyersTable(input)],
    closing: [{ title: 'Left unfinished', sentences: left.length > 0 ? left : ['Nothing.'] }],
    signatures: ['Treasurer', 'Second officer'],
    caution: NO_ADVICE,
  });
}

/** The lines of a balance as they are printed, each with both sides and the difference. */
export function balanceTable(lines: readonly ClosingLine[]): ListTable {
  return tableOf(
    lines,
    [
      ['words', '', ({ title, leftWords, rightWords }) => cell(title, `${leftWords}, against ${lower(rightWords)}`)],
      ['money', 'One side', (line) => amountWords(line, line.left)],
      ['money', 'Other side', (line) => amountWords(line, line.right)],
      ['money', 'Difference', (line) => amountWords(line, line.difference)],
    ],
    { title: 'The balance', none: 'None.' },
  );
}

function partsTable(lines: readonly ClosingLine[]): ListTable {
  const rows = lines.flatMap((line) => [
    ...sideRows(line, line.leftWords, line.leftParts, line.left),
    ...sideRows(line, line.rightWords, line.parts, line.right),
  ]);
  return tableOf(
    rows,
    [
      ['words', '', ([side = '']) => side],
      ['words', '', ([, label = '']) => label],
      ['money', '', ([, , amount = '']) => amount],
    ],
    { title: 'What the sides are made of', none: 'None.' },
  );
}

/** The parts of a side and, under them, what they come to; nothing where the side has no parts. */
function sideRows(line: ClosingLine, words: string, parts: readonly Part[], total: number): string[][] {
  if (parts.length === 0) return [];
  // What a side is called stands beside its first part, so that no page can end between the two.
  const rows = parts.map(({ label, amount }, at) => [at === 0 ? words : '', label, amountWords(line, amount)]);
  return [...rows, ['', 'Together', amountWords(line, total)]];
}

function revenueTable(closing: ClosingFacts): ListTable {
  const revenue = revenueOf(closing.facts, overShortOf(closing));
  const rows = [
    ...revenueWords(revenue),
    ['revenueCents', 'Kept in all'],
    ['taxCents', 'Sales tax to remit'],
    ['advancesCents', 'Advances got back'],
  ] as const;
  return tableOf(
    rows,
    [
      ['words', '', ([, words]) => words],
      ['money', '', ([name]) => showMoney(revenue[name])],
    ],
    { title: 'What the association keeps', none: 'None.' },
  );
}

function sellersTable({ closing: { facts, sheets }, sellerNames }: ClosingReportInput): ListTable {
  const rows = settleSale(facts).map((one) => ({
    ...one,
    ...splitPaid(facts.payments.filter(({ sellerNo }) => sellerNo === one.sellerNo)),
  }));
  return tableOf(
    rows,
    [
      ['lot', 'Seller', ({ sellerNo }) => String(sellerNo)],
      ['words', 'Who', ({ sellerNo }) => joined(sellerNames.get(sellerNo) ?? [], ', ')],
      ['number', 'Sheet', ({ sellerNo }) => String(sheets.get(sellerNo)?.number ?? '')],
      ['money', 'Net', ({ netCents }) => showMoney(netCents)],
      ['money', 'Paid', ({ paidCents }) => showMoney(negate(paidCents))],
      ...apartColumns(rows, negate),
    ],
    { title: 'The sellers', none: 'None.' },
  );
}

function buyersTable({ closing: { facts, invoices }, buyerNames }: ClosingReportInput): ListTable {
  const rows = buyerAccounts(facts);
  return tableOf(
    rows,
    [
      ['lot', 'Buyer', ({ buyerNo }) => String(buyerNo)],
      ['words', 'Who', ({ buyerNo }) => buyerNames.get(buyerNo) ?? ''],
      ['number', 'Invoice', ({ buyerNo }) => String(invoices.get(buyerNo)?.number ?? '')],
      ['money', 'Total', ({ invoice }) => showMoney(invoice.totalCents)],
      ['money', 'Paid', ({ paidCents }) => showMoney(paidCents)],
      ...apartColumns(rows, (amount) => amount),
    ],
    { title: 'The buyers', none: 'None.' },
  );
}

/** What moved no money has its own columns, and only a sale that has some has them. */
function apartColumns<T extends PaidSplit>(rows: readonly T[], signed: (amount: Cents) => Cents) {
  const columns = [
    ['setOffCents', 'Set off'],
    ['givenUpCents', 'Written off'],
    ['feeCents', 'Check fees'],
  ] as const;
  return columns
    .filter(([name]) => rows.some((row) => row[name] !== ZERO))
    .map(
      ([name, head]) =>
        ['money', head, (row: T) => showMoney(name === 'setOffCents' ? signed(row[name]) : row[name])] as const,
    );
}
