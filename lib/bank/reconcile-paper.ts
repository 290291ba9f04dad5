/** The bank reconciliation as a paper and as rows: from the balance of the statement to that of the book, with each item. */
import { longDate } from '#lib/date/date.ts';
import { addCents, type Cents, formatMoney, negate, showMoney, subtractCents, sumOf, ZERO } from '#lib/money/money.ts';
import type { PaperGround } from '#lib/paper/facts.ts';
import { cell, type ListPaper, type ListTable, paperAbout, strongCell, tableOf } from '#lib/paper/list.ts';
import { clean } from '#lib/settlement/spelling.ts';
import { ageWords, type BankEntry, belowZeroWords, differenceWords, type Reconciled } from './reconcile.ts';

export interface Compared<T extends BankEntry & { readonly sale: string }> {
  /** The day of the statement, ISO 8601. */
  readonly upTo: string;
  readonly figures: Reconciled<T>;
  /** Money in the account that the book does not know. */
  readonly otherCents: Cents;
  /** The balance on the statement; null where nobody typed it, and then it is taken to be what it should be. */
  readonly saysCents: Cents | null;
}

type Named = BankEntry & { readonly sale: string };

interface Walk {
  readonly statementCents: Cents;
  readonly transitCents: Cents;
  /** Above nothing. */
  readonly outCents: Cents;
  /** Above nothing. */
  readonly returnedCents: Cents;
  /** The balance of the statement, once all of that is counted. */
  readonly adjustedCents: Cents;
}

function walk({ figures, otherCents, saysCents }: Compared<Named>): Walk {
  const statementCents = saysCents ?? addCents(figures.statementCents, otherCents);
  const transitCents = sumOf(figures.inTransit, 'amountCents');
  const outCents = negate(sumOf(figures.checksOut, 'amountCents'));
  const returnedCents = negate(sumOf(figures.returned, 'amountCents'));
  const known = subtractCents(statementCents, otherCents);
  return {
    statementCents,
    transitCents,
    outCents,
    returnedCents,
    adjustedCents: subtractCents(subtractCents(addCents(known, transitCents), outCents), returnedCents),
  };
}

export function reconciliationPaper(ground: PaperGround, compared: Compared<Named>): ListPaper {
  const { upTo, figures, otherCents, saysCents } = compared;
  const { statementCents, transitCents, outCents, returnedCents, adjustedCents } = walk(compared);
  const should = addCents(figures.statementCents, otherCents);
  const line = (words: string, amount: Cents) => [cell(words), cell(showMoney(amount))] as const;
  const sums = [
    line(saysCents === null ? 'What the statement should say' : 'Balance of the statement', statementCents),
    ...(otherCents === ZERO ? [] : [line('less money that this book does not know', otherCents)]),
    line(`plus deposits in transit: ${figures.inTransit.length}`, transitCents),
    line(`less outstanding checks: ${figures.checksOut.length}`, outCents),
    ...(figures.returned.length === 0
      ? []
      : [line(`less checks that came back: ${figures.returned.length}`, returnedCents)]),
    [strongCell('Balance by the statement'), strongCell(showMoney(adjustedCents))] as const,
    [strongCell('Balance by the book'), strongCell(showMoney(figures.bookCents))] as const,
  ];
  const said = saysCents === null ? 'No balance of the statement was typed.' : differenceWords(saysCents, should);
  const below = belowZeroWords(figures.bookCents);
  return paperAbout(ground, {
    title: 'Bank reconciliation',
    sale: { name: 'The bank account', words: `Statement of ${longDate(upTo)}, all sales of this book` },
    result: { label: 'Balance by the book', words: showMoney(figures.bookCents) },
    opening: [said, ...(below === null ? [] : [below])],
    tables: [
      tableOf(
        sums,
        [
          ['words', '', ([words = cell('')]) => words],
          ['money', 'Amount', ([, amount = cell('')]) => amount],
        ],
        { title: 'From the statement to the book' },
      ),
      itemTable(figures.inTransit, upTo, { title: 'Deposits in transit', sum: transitCents }),
      itemTable(figures.checksOut, upTo, { title: 'Outstanding checks', sum: outCents }),
      ...(figures.returned.length === 0
        ? []
        : [itemTable(figures.returned, upTo, { title: 'Checks that came back', sum: returnedCents })]),
    ],
    signatures: ['Treasurer', 'Looked over by'],
  });
}

function itemTable(
  items: readonly Named[],
  upTo: string,
  about: { readonly title: string; readonly sum: Cents },
): ListTable {
  const size = ({ amountCents }: Named) => (amountCents < ZERO ? negate(amountCents) : amountCents);
  return tableOf<Named>(
    items,
    [
      ['words', 'Day', ({ day }) => longDate(day)],
      ['words', 'What', ({ memo, sale }) => cell(clean(memo), clean(sale))],
      ['words', 'Age', (one) => ageWords(one, upTo).words],
      ['money', 'Amount', (one) => showMoney(size(one))],
    ],
    { title: about.title, none: 'None.', ...(items.length > 0 && { sum: 'In all', sumAmount: showMoney(about.sum) }) },
  );
}

export const RECONCILIATION_COLUMNS = ['part', 'day', 'sale', 'what', 'amount'] as const;

/** Every line adds to the balance by the book, the last one but the difference: money out stands below nothing. */
export function reconciliationRows(compared: Compared<Named>): string[][] {
  const { upTo, figures, otherCents } = compared;
  const { statementCents, adjustedCents } = walk(compared);
  const sum = (part: string, amount: Cents) => [part, upTo, '', '', formatMoney(amount)];
  const item = (part: string) => (one: Named) => [
    ...[part, one.day, clean(one.sale), clean(one.memo)],
    formatMoney(one.amountCents),
  ];
  return [
    sum('statement', statementCents),
    sum('unknown', otherCents === ZERO ? ZERO : negate(otherCents)),
    ...figures.inTransit.map(item('in_transit')),
    ...figures.checksOut.map(item('outstanding')),
    ...figures.returned.map(item('returned')),
    sum('book', figures.bookCents),
    sum('difference', subtractCents(adjustedCents, figures.bookCents)),
  ];
}
