/** The check register and the stubs: finished lists of words, of which the page, the PDF and the CSV are views. */
import { type Cents, formatMoney, showMoney, sumCents } from '#lib/money/money.ts';
import type { PaperGround } from '#lib/paper/facts.ts';
import { cell, type ListPaper, type ListTable, listPaper, strongCell } from '#lib/paper/list.ts';
import type { Address } from '#lib/person/fields.ts';
import type { SettlementSheet } from '#lib/settlement/model.ts';
import { addressLines, clean, dateInWords } from '#lib/settlement/spelling.ts';

/** One check as the book has it. `replaces` and `replacedBy` are check numbers. */
export interface CheckEntry extends Address {
  readonly number: number;
  readonly sellerNo: number;
  readonly personId: string;
  readonly name: string;
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
    return `void ${dateInWords(voidedOn)}${next}: ${clean(voidReason ?? '')}`;
  }
  return replaces === null ? '' : `in place of ${replaces}`;
}

export function checkRegister(ground: PaperGround, checks: readonly CheckEntry[]): ListPaper {
  return listPaper(ground, { title: 'Check register', tables: [registerTable(checks)] });
}

/** The register with some of its rows only, such as those of one page; the sum is that of all checks. */
export function registerPage(
  ground: PaperGround,
  checks: readonly CheckEntry[],
  shown: readonly CheckEntry[],
): ListPaper {
  const table = { ...registerTable(checks), rows: registerTable(shown).rows };
  return listPaper(ground, { title: 'Check register', tables: [table] });
}

function registerTable(checks: readonly CheckEntry[]): ListTable {
  const good = checks.filter(({ voidedOn }) => voidedOn === null);
  const sum = showMoney(sumCents(good.map(({ amountCents }) => amountCents)));
  return {
    title: '',
    columns: [
      { kind: 'lot', words: 'Check' },
      { kind: 'words', words: 'To' },
      { kind: 'number', words: 'Seller' },
      { kind: 'number', words: 'Sheet' },
      { kind: 'words', words: 'Date, and what became of it' },
      { kind: 'money', words: 'Amount' },
    ],
    rows: checks.map((check) => [
      cell(String(check.number)),
      cell(clean(check.name)),
      cell(String(check.sellerNo)),
      cell(String(check.sheetNumber)),
      cell(dateInWords(check.paidOn), checkStateWords(check)),
      check.voidedOn === null ? cell(showMoney(check.amountCents)) : cell('void', showMoney(check.amountCents)),
    ]),
    none: 'No check has been written yet.',
    ...(checks.length === 0
      ? { sum: '' }
      : { sum: `${good.length} ${good.length === 1 ? 'check' : 'checks'} good`, sumAmount: sum }),
  };
}

export const REGISTER_COLUMNS = ['check', 'payee', 'seller_no', 'sheet', 'date', 'amount', 'state', 'remark'] as const;

/** The register as rows of a CSV file, a void check with its amount. */
export function registerRows(checks: readonly CheckEntry[]): string[][] {
  return checks.map((check) => [
    ...[String(check.number), clean(check.name), String(check.sellerNo), String(check.sheetNumber)],
    ...[check.paidOn, formatMoney(check.amountCents)],
    ...[check.voidedOn === null ? 'good' : 'void', checkStateWords(check)],
  ]);
}

/** The stub that goes with a check: to whom, how much, and what it pays, in the words of the sheet. */
export function checkStub(ground: PaperGround, check: CheckEntry, sheet: SettlementSheet): ListPaper {
  const own = sheet.shares.find(({ personId }) => personId === check.personId);
  const rows = [
    ...sheet.steps.map(({ kind, label, words }) => [kind === 'less' ? `less ${label}` : label, words]),
    ...(own && own.partsWords !== '' ? [[`Your share, ${own.partsWords}`, own.share.words]] : []),
  ];
  const state = checkStateWords(check);
  return listPaper(ground, {
    title: 'Check stub',
    issuedWords: `Check written ${dateInWords(check.paidOn)}`,
    number: { label: 'Check', words: String(check.number) },
    parties: [{ title: clean(check.name), sentences: addressLines(check) }],
    opening: [
      `Check ${check.number} of ${showMoney(check.amountCents)} ${ground.sale.currency} to ${clean(check.name)}, for sheet ${check.sheetNumber} of seller number ${check.sellerNo}.`,
      ...(state === '' ? [] : [`This check is ${state}`]),
    ],
    tables: [
      {
        title: `Sheet ${check.sheetNumber}`,
        columns: [
          { kind: 'words', words: '' },
          { kind: 'money', words: ground.sale.currency },
        ],
        rows: [
          ...rows.map((row) => row.map((words) => cell(words))),
          [strongCell('This check'), strongCell(showMoney(check.amountCents))],
        ],
        none: '',
        sum: '',
      },
    ],
    caution: sheet.caution,
  });
}
