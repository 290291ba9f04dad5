/** The closing report: the balance at zero, what the association keeps, every seller and buyer, and the money by method. */
import { buyerAccounts } from '#lib/buyer/buyer.ts';
import { type Cents, showMoney } from '#lib/money/money.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { type ColumnKind, cell, type ListPaper, type ListTable, listPaper, NO_ADVICE } from '#lib/paper/list.ts';
import { paidOut } from '#lib/seller/account.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { dateInWords, joined } from '#lib/settlement/spelling.ts';
import { amountWords, type ClosingFacts, type ClosingLine } from './closing-line.ts';
import { REVENUE_WORDS, revenueOf } from './revenue.ts';

export interface ClosingReportInput {
  readonly context: PaperContext;
  readonly closing: ClosingFacts;
  readonly lines: readonly ClosingLine[];
  readonly sellerNames: ReadonlyMap<number, readonly string[]>;
  readonly buyerNames: ReadonlyMap<number, string>;
  readonly closedBy: string;
}

export function closingReport(input: ClosingReportInput): ListPaper {
  const { context, lines, closing, closedBy } = input;
  return listPaper(context, {
    title: 'Closing report',
    issuedWords: `Closed ${dateInWords(context.issuedOn)} by ${closedBy}`,
    opening: [
      'Every line of the balance is at zero, and the sale is closed. It can be opened again only with a reason.',
    ],
    tables: [balanceTable(lines), partsTable(lines), revenueTable(closing), sellersTable(input), buyersTable(input)],
    signatures: ['Treasurer', 'Second officer'],
    caution: NO_ADVICE,
  });
}

/** The lines of a balance as they are printed, each with both sides and the difference. */
export function balanceTable(lines: readonly ClosingLine[]): ListTable {
  return tableOf(
    'The balance',
    [
      ['words', ''],
      ['money', 'One side'],
      ['money', 'Other side'],
      ['money', 'Difference'],
    ],
    {
      rows: lines.map((line) => {
        const { title, leftWords, rightWords, left, right, difference } = line;
        const amounts = [left, right, difference].map((amount) => cell(amountWords(line, amount)));
        return [cell(title, `${leftWords}, against ${lower(rightWords)}`), ...amounts];
      }),
    },
  );
}

function partsTable(lines: readonly ClosingLine[]): ListTable {
  return tableOf(
    'What the other side is made of',
    [
      ['words', ''],
      ['words', ''],
      ['money', ''],
    ],
    {
      rows: lines.flatMap((line) =>
        line.parts.map(({ label, amount }, at) => {
          return [cell(at === 0 ? line.rightWords : ''), cell(label), cell(amountWords(line, amount))];
        }),
      ),
    },
  );
}

function revenueTable({ facts }: ClosingFacts): ListTable {
  const revenue = revenueOf(facts);
  const rows = [
    ...REVENUE_WORDS,
    ['revenueCents', 'Kept in all'],
    ['taxCents', 'Sales tax to remit'],
    ['advancesCents', 'Advances got back'],
  ] as const;
  return tableOf(
    'What the association keeps',
    [
      ['words', ''],
      ['money', ''],
    ],
    {
      rows: rows.map(([name, words]) => [cell(words), cell(showMoney(revenue[name]))]),
    },
  );
}

function sellersTable({ closing, sellerNames }: ClosingReportInput): ListTable {
  const { facts, sheets } = closing;
  const columns = [
    ['lot', 'Seller'],
    ['words', 'Who'],
    ['number', 'Sheet'],
    ['money', 'Net'],
    ['money', 'Paid'],
  ] as const;
  return tableOf('The sellers', columns, {
    rows: settleSale(facts).map(({ sellerNo, netCents }) => {
      const paid = paidOut(facts.payments.filter((payment) => payment.sellerNo === sellerNo));
      const sheet = sheets.get(sellerNo)?.number;
      const who = joined(sellerNames.get(sellerNo) ?? [], ', ');
      return party(sellerNo, who, [sheet === undefined ? '' : String(sheet), ...amounts(netCents, paid)]);
    }),
  });
}

function buyersTable({ closing, buyerNames }: ClosingReportInput): ListTable {
  const { facts, invoices } = closing;
  const columns = [
    ['lot', 'Buyer'],
    ['words', 'Who'],
    ['number', 'Invoice'],
    ['money', 'Total'],
    ['money', 'Paid'],
  ] as const;
  return tableOf('The buyers', columns, {
    rows: buyerAccounts(facts).map(({ buyerNo, invoice, paidCents }) => {
      const number = invoices.get(buyerNo)?.number;
      const who = buyerNames.get(buyerNo) ?? '';
      return party(buyerNo, who, [
        number === undefined ? '' : String(number),
        ...amounts(invoice.totalCents, paidCents),
      ]);
    }),
  });
}

function party(number: number, who: string, others: readonly string[]) {
  return [String(number), who, ...others].map((words) => cell(words));
}

function amounts(...cents: readonly Cents[]): string[] {
  return cents.map(showMoney);
}

function tableOf(
  title: string,
  columns: readonly (readonly [ColumnKind, string])[],
  { rows }: Pick<ListTable, 'rows'>,
): ListTable {
  return { title, columns: columns.map(([kind, words]) => ({ kind, words })), rows, none: 'None.', sum: '' };
}

function lower(words: string): string {
  return `${words.slice(0, 1).toLowerCase()}${words.slice(1)}`;
}
