/** The check register and the stubs: finished lists of words, of which the page, the PDF and the CSV are views. */
import { longDate } from '#lib/date/date.ts';
import { type Cents, formatMoney, showMoney, sumOf } from '#lib/money/money.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { BLANK, cell, type ListCell, type ListPaper, listPaper, strongCell, tableOf } from '#lib/paper/list.ts';
import type { Address } from '#lib/person/fields.ts';
import { countWords } from '#lib/result/text.ts';
import { sharesOf } from '#lib/seller/account.ts';
import type { SettlementSheet } from '#lib/settlement/model.ts';
import { addressLines, clean, payTo } from '#lib/settlement/spelling.ts';
import { type EarlierPayment, earlierRows, leftAfter, leftRow, saysMore } from './paid-so-far.ts';

/** One check as the book has it. `replaces` and `replacedBy` are check numbers. */
export interface CheckEntry extends Address {
  readonly number: number;
  readonly sellerNo: number;
  readonly personId: string;
  readonly name: string;
  /** To whom it is made out where that is not the partner; empty otherwise. */
  readonly payee: string;
  readonly amountCents: Cents;
  /** ISO 8601 date, as the association has it; so are the others. */
  readonly paidOn: string;
  readonly sheetNumber: number;
  readonly voidedOn: string | null;
  readonly voidReason: string | null;
  readonly replaces: number | null;
  readonly replacedBy: number | null;
}

function checkStateWords({ voidedOn, voidReason, replaces, replacedBy }: CheckEntry): string {
  if (voidedOn !== null) {
    const next = replacedBy === null ? '' : `, written anew as ${replacedBy}`;
    return `void ${longDate(voidedOn)}${next}: ${clean(voidReason ?? '')}`;
  }
  return replaces === null ? '' : `in place of ${replaces}`;
}

/** The register, also with those of its rows only that one page shows; the sum is that of all checks. */
export function checkRegister(
  context: PaperContext,
  checks: readonly CheckEntry[],
  shown: readonly CheckEntry[] = checks,
): ListPaper {
  const good = checks.filter(({ voidedOn }) => voidedOn === null);
  const sum = `${countWords(good.length, 'check')} good`;
  const sums = checks.length === 0 ? {} : { sum, sumAmount: showMoney(sumOf(good, 'amountCents')) };
  const table = tableOf<CheckEntry>(
    shown,
    [
      ['lot', 'Check', ({ number }) => String(number)],
      ['words', 'To', toCell],
      ['number', 'Seller', ({ sellerNo }) => String(sellerNo)],
      ['number', 'Sheet', ({ sheetNumber }) => String(sheetNumber)],
      ['date', 'Date', ({ paidOn }) => longDate(paidOn)],
      ['money', 'Amount', amountCell],
    ],
    { none: 'No check has been written yet.', ...sums, belowOf: (check) => [checkStateWords(check)] },
  );
  return listPaper(context, { title: 'Check register', tables: [table] });
}

function toCell(check: CheckEntry): ListCell {
  return check.payee === '' ? cell(clean(check.name)) : cell(payTo(check), `for ${clean(check.name)}`);
}

function amountCell({ voidedOn, amountCents }: CheckEntry): ListCell {
  return voidedOn === null ? cell(showMoney(amountCents)) : cell('void', showMoney(amountCents));
}

export const REGISTER_COLUMNS = ['check', 'payee', 'seller_no', 'sheet', 'date', 'amount', 'state', 'remark'] as const;

/** The register as rows of a CSV file, a void check with its amount. */
export function registerRows(checks: readonly CheckEntry[]): string[][] {
  return checks.map((check) => [
    ...[String(check.number), payTo(check), String(check.sellerNo), String(check.sheetNumber)],
    ...[check.paidOn, formatMoney(check.amountCents)],
    ...[check.voidedOn === null ? 'good' : 'void', checkStateWords(check)],
  ]);
}

/**
 * The stub that goes with a check: to whom, how much, and what it pays, in the words of the sheet. A further check says
 * what was paid before it, and any that leaves something what is left. `earlier` stood when this check was written.
 */
export function checkStub(
  context: PaperContext,
  { check, sheet, earlier }: { check: CheckEntry; sheet: SettlementSheet; earlier: readonly EarlierPayment[] },
): ListPaper {
  const own = sheet.shares.find(({ personId }) => personId === check.personId);
  const rows = [
    ...sheet.steps.map(({ kind, label, words }) => [kind === 'less' ? `less ${label}` : label, words]),
    ...(own && own.partsWords !== '' ? [[`Your share, ${own.partsWords}`, own.share.words]] : []),
  ];
  const state = checkStateWords(check);
  const amount = showMoney(check.amountCents);
  const left = leftAfter(sharesOf(sheet), { ...check, direction: 'out', earlier });
  return listPaper(context, {
    title: 'Check stub',
    issuedWords: `Check written ${longDate(check.paidOn)}`,
    number: { label: 'Check', words: String(check.number) },
    parties: [{ title: payTo(check), sentences: addressLines(check) }],
    opening: [
      `Check ${check.number} of ${amount} ${context.sale.currency} to ${payTo(check)}, for sheet ${check.sheetNumber} of seller number ${check.sellerNo}.`,
      ...(state === '' ? [] : [`This check is ${state}`]),
    ],
    tables: [
      tableOf(
        [
          ...rows.map((row) => row.map((words) => cell(words))),
          ...earlierRows(left),
          [strongCell('This check'), strongCell(amount)],
          ...(check.voidedOn === null && saysMore(left) ? [leftRow(left)] : []),
        ],
        [
          ['words', '', ([label = BLANK]) => label],
          ['money', context.sale.currency, ([, words = BLANK]) => words],
        ],
        { title: `Sheet ${check.sheetNumber}` },
      ),
    ],
    caution: sheet.caution,
  });
}
