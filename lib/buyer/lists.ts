/** The papers of a buyer as the one layout of lists draws them: the finished words and figures of their models, placed. */
import type {
  BuyerPaperHead,
  InvoiceCorrection,
  InvoicePaper,
  PurchaseRecord,
  ReceiptPaper,
} from '#lib/invoice/model.ts';
import { ZERO } from '#lib/money/money.ts';
import { cell, type ListCell, type ListPaper, type ListTable, strongCell } from '#lib/paper/list.ts';
import type { Figure, SheetHead } from '#lib/settlement/model.ts';
import type { SheetStamp } from '#lib/settlement/parties.ts';
import { headOf } from '#lib/settlement/sheet.ts';

const NOTHING_MORE: Pick<ListPaper, 'opening' | 'closing' | 'signatures' | 'signedAtTop'> = {
  opening: [],
  closing: [],
  signatures: [],
  signedAtTop: false,
};

function shared(paper: BuyerPaperHead, head: SheetHead): Omit<ListPaper, 'tables'> {
  const { title, issuedOn, issuedWords, association, sale, buyer, remarks, caution } = paper;
  const { buyerNo, name, address, licence, exemption } = buyer;
  return {
    paper: 'list',
    title,
    issuedOn,
    issuedWords,
    head,
    association,
    sale,
    remarks,
    caution,
    ...NOTHING_MORE,
    number: { label: 'Buyer', words: String(buyerNo) },
    parties: [{ title: name, sentences: [...address, licence, exemption].filter((line) => line !== '') }],
  };
}

export function invoiceList(invoice: InvoicePaper): ListPaper {
  const { title, numberWords, preview, issuedWords, sale, result, corrects, terms } = invoice;
  return {
    ...shared(invoice, invoice.head),
    title: preview ? `PREVIEW: ${title.toLowerCase()}` : title,
    issuedWords: preview ? issuedWords : `${numberWords} · ${issuedWords}`,
    result: { label: result.label, words: `${result.words} ${sale.currency}` },
    opening: corrects ? [corrects.words] : [],
    tables: [
      lotsTable(invoice),
      reckoningTable(invoice),
      ...paymentsTable(invoice),
      ...(corrects ? correctionTables(corrects) : []),
    ],
    closing: [{ title: 'Terms of this sale', sentences: terms }],
  };
}

function lotsTable({ lots, totals }: InvoicePaper): ListTable {
  const premium = totals.premiumCents !== ZERO;
  return {
    title: '',
    columns: [
      { kind: 'lot', words: 'Lot' },
      { kind: 'words', words: 'Goods and export tags' },
      { kind: 'goods', words: 'Size, grade, section' },
      { kind: 'quantity', words: 'Quantity' },
      { kind: 'price', words: 'Price' },
      ...(premium ? [{ kind: 'money', words: 'Premium' } as const] : []),
      { kind: 'money', words: 'Amount' },
    ],
    rows: lots.map((lot) => [
      cell(lot.lotNo),
      cell(lot.goods, ...lot.tags.map(({ words }) => words)),
      cell(lot.detail),
      cell(lot.quantity.words),
      cell(lot.price.words),
      ...(premium ? [cell(lot.premium.words)] : []),
      cell(lot.amount.words),
    ]),
    none: 'No lots.',
    sum: '',
  };
}

function reckoningTable({ steps }: InvoicePaper): ListTable {
  const rows = steps.map(({ kind, label, words }) => {
    const made = kind === 'sum' ? strongCell : cell;
    return [made(kind === 'plus' ? `plus ${label}` : label), made(words)];
  });
  return twoColumns('Reckoning', rows);
}

function paymentsTable({ payments, result }: InvoicePaper): ListTable[] {
  if (payments.length === 0) return [];
  const rows = payments.map(({ label, amount }) => [cell(label), cell(amount.words)]);
  return [twoColumns('Payments until then', [...rows, [strongCell(result.label), strongCell(result.words)]])];
}

function twoColumns(title: string, rows: readonly (readonly ListCell[])[]): ListTable {
  const columns = [
    { kind: 'words', words: '' },
    { kind: 'money', words: '' },
  ] as const;
  return { title, columns, rows, none: '', sum: '' };
}

function correctionTables({ number, lots, sums, remarks }: InvoiceCorrection): ListTable[] {
  const columns = [
    { kind: 'words', words: 'What' },
    { kind: 'money', words: `Invoice ${number}` },
    { kind: 'money', words: 'Now' },
    { kind: 'money', words: 'Difference' },
  ] as const;
  const figures = (change: { readonly before: Figure; readonly after: Figure; readonly difference: Figure }) => [
    ...[cell(change.before.words), cell(change.after.words), cell(change.difference.words)],
  ];
  return [
    {
      title: 'What changed',
      columns,
      rows: [
        ...lots.map((lot) => [cell(`Lot ${lot.lotNo}, ${lot.words}`, ...changeWords(lot)), ...figures(lot)]),
        ...sums.slice(0, -1).map((sum) => [cell(sum.label), ...figures(sum)]),
        ...sums.slice(-1).map((sum) => [cell(sum.label), ...figures(sum)].map(({ words }) => strongCell(words))),
      ],
      none: '',
      sum: remarks.join(' '),
    },
  ];
}

function changeWords({ beforeWords, afterWords }: InvoiceCorrection['lots'][number]): string[] {
  const before = beforeWords === '' ? [] : [`before: ${beforeWords}`];
  return afterWords === '' ? before : [...before, `now: ${afterWords}`];
}

export function receiptList(receipt: ReceiptPaper, head: SheetStamp['head']): ListPaper {
  const { numberWords, issuedWords, amount, sale, facts, voided, direction } = receipt;
  return {
    ...shared(receipt, headOf(head)),
    issuedWords: `${numberWords} · ${issuedWords}`,
    result: { label: direction === 'in' ? 'Received' : 'Handed back', words: `${amount.words} ${sale.currency}` },
    opening: voided === '' ? [] : [voided],
    tables: [
      {
        title: '',
        columns: [
          { kind: 'quantity', words: '' },
          { kind: 'words', words: '' },
        ],
        rows: facts.map(({ label, words }) => [cell(label), cell(words)]),
        none: '',
        sum: '',
      },
    ],
    signatures: [direction === 'in' ? 'Received for the association' : 'Received by the buyer'],
  };
}

export function purchaseList(record: PurchaseRecord, head: SheetStamp['head']): ListPaper {
  return {
    ...shared(record, headOf(head)),
    tables: [purchasesTable(record), kindsTable(record)],
    signatures: ['Buyer'],
  };
}

function purchasesTable({ rows, total, sale }: PurchaseRecord): ListTable {
  return {
    title: '',
    columns: [
      { kind: 'lot', words: 'Lot' },
      { kind: 'words', words: 'Date and seller' },
      { kind: 'words', words: 'Kind, where taken, export tags' },
      { kind: 'quantity', words: 'Number' },
      { kind: 'price', words: 'Price' },
      { kind: 'money', words: 'Amount' },
    ],
    rows: rows.map((row) => [
      cell(row.lotNo),
      cell(row.dateWords, ...row.sellers.flatMap(({ name, address, licence }) => [name, ...address, licence])),
      cell(row.goods, row.scientificName, takenWords(row), ...row.tags.map(({ words }) => words)),
      cell(row.quantity.words, row.by === 'lb' || row.by === 'oz' ? piecesWords(row.count) : ''),
      cell(row.price.words, row.each.words === '' ? '' : `${row.each.words} each`),
      cell(row.amount.words),
    ]),
    none: 'Nothing bought.',
    sum: 'Total without premium and tax',
    sumAmount: `${total.words} ${sale.currency}`,
  };
}

/** Where the goods were taken: the State. The association's own section is no county, and stands on no official paper. */
export function takenWords({ takenIn }: PurchaseRecord['rows'][number]): string {
  return `Taken in ${takenIn}`;
}

function piecesWords(count: number | null): string {
  return count === null ? '' : count === 1 ? '1 piece' : `${count} pieces`;
}

function kindsTable({ kinds }: PurchaseRecord): ListTable {
  return {
    title: 'By kind',
    columns: [
      { kind: 'goods', words: 'Kind' },
      { kind: 'words', words: 'How many' },
      { kind: 'money', words: 'Amount' },
    ],
    rows: kinds.map(({ goods, words, amount }) => [cell(goods), cell(words), cell(amount.words)]),
    none: '',
    sum: '',
  };
}
