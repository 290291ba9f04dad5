/** The papers of a buyer as the one layout of lists draws them: the finished words and figures of their models, placed. */
import type {
  BuyerPaperHead,
  ChangedLot,
  ChangedSum,
  InvoiceCorrection,
  InvoiceLot,
  InvoicePaper,
  PurchaseRecord,
  PurchaseRow,
  ReceiptPaper,
} from '#lib/invoice/model.ts';
import { ZERO } from '#lib/money/money.ts';
import {
  BLANK,
  type Column,
  cell,
  type ListCell,
  type ListPaper,
  type ListTable,
  strongCell,
  tableOf,
} from '#lib/paper/list.ts';
import { countWords } from '#lib/result/text.ts';
import type { SheetHead } from '#lib/settlement/model.ts';
import type { SheetStamp } from '#lib/settlement/parties.ts';
import { sheetHeadOf } from '#lib/settlement/sheet.ts';
import { tagRanges } from '#lib/tag/list.ts';

function shared(paper: BuyerPaperHead, head: SheetHead): Omit<ListPaper, 'tables'> {
  const { title, issuedOn, issuedWords, association, sale, buyer, remarks, caution } = paper;
  const { buyerNo, name, address, licence, exemption } = buyer;
  const sentences = [...address, licence, exemption].filter((line) => line !== '');
  return {
    ...{ paper: 'list', title, issuedOn, issuedWords, head, association, sale, remarks, caution },
    ...{ opening: [], closing: [], signatures: [], signedAtTop: false },
    number: { label: 'Buyer', words: String(buyerNo) },
    parties: [{ title: name, sentences }],
  };
}

export function invoiceList(invoice: InvoicePaper): ListPaper {
  const { title, numberWords, preview, issuedWords, sale, result, corrects, terms } = invoice;
  return {
    ...shared(invoice, invoice.head),
    ...(!preview && { issued: true }),
    title: preview ? `PREVIEW: ${title.toLowerCase()}` : title,
    issuedWords: preview ? issuedWords : `${numberWords} · ${issuedWords}`,
    result: { label: result.label, words: `${result.words} ${sale.currency}` },
    opening: corrects ? [corrects.words] : [],
    tables: [
      lotsTable(invoice),
      reckoningTable(invoice),
      ...paymentsTable(invoice),
      ...(corrects ? [correctionTable(corrects)] : []),
    ],
    closing: [{ title: 'Terms of this sale', sentences: terms }],
  };
}

function lotsTable({ lots, totals }: InvoicePaper): ListTable {
  const premium: readonly Column<InvoiceLot>[] =
    totals.premiumCents === ZERO ? [] : [['money', 'Premium', (lot) => lot.premium.words]];
  return tableOf<InvoiceLot>(
    lots,
    [
      ['lot', 'Lot', ({ lotNo }) => lotNo],
      ['words', 'Goods', ({ goods }) => goods],
      ['goods', 'Size, grade, section', ({ detail }) => detail],
      ['quantity', 'Quantity', ({ quantity }) => quantity.words],
      ['price', 'Price', ({ price }) => price.words],
      ...premium,
      ['money', 'Amount', ({ amount }) => amount.words],
    ],
    { none: 'No lots.', belowOf: ({ tags }) => [tagsLine(tags)] },
  );
}

/** The export tags of a lot in one line, of numbers that follow each other the first and the last. */
function tagsLine(tags: readonly { readonly tag: string; readonly words: string }[]): string {
  if (tags.length === 0) return '';
  const good = tags.filter(({ tag, words }) => words === tag);
  const marked = tags.filter(({ tag, words }) => words !== tag).map(({ words }) => words);
  const ranges = tagRanges(good.map(({ tag }) => ({ tag, condition: 'intact' })));
  return `Export tags: ${[...ranges, ...marked].join(' · ')}`;
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
  return tableOf(
    rows,
    [
      ['words', '', ([label = BLANK]) => label],
      ['money', '', ([, amount = BLANK]) => amount],
    ],
    { title },
  );
}

interface Changed {
  readonly what: ListCell;
  readonly change: ChangedSum | ChangedLot;
  readonly strong: boolean;
}

function correctionTable({ number, lots, sums, remarks }: InvoiceCorrection): ListTable {
  const rows: Changed[] = [
    ...lots.map((lot) => {
      return { what: cell(`Lot ${lot.lotNo}, ${lot.words}`, ...changeWords(lot)), change: lot, strong: false };
    }),
    ...sums.map((sum, at) => {
      const strong = at === sums.length - 1;
      return { what: strong ? strongCell(sum.label) : cell(sum.label), change: sum, strong };
    }),
  ];
  const figureOf = (name: 'before' | 'after' | 'difference') => {
    return ({ change, strong }: Changed) => (strong ? strongCell : cell)(change[name].words);
  };
  return tableOf<Changed>(
    rows,
    [
      ['words', 'What', ({ what }) => what],
      ['money', `Invoice ${number}`, figureOf('before')],
      ['money', 'Now', figureOf('after')],
      ['money', 'Difference', figureOf('difference')],
    ],
    { title: 'What changed', sum: remarks.join(' ') },
  );
}

function changeWords({ beforeWords, afterWords }: InvoiceCorrection['lots'][number]): string[] {
  const before = beforeWords === '' ? [] : [`before: ${beforeWords}`];
  return afterWords === '' ? before : [...before, `now: ${afterWords}`];
}

export function receiptList(receipt: ReceiptPaper, head: SheetStamp['head']): ListPaper {
  const { numberWords, issuedWords, amount, sale, facts, balance, voided, resultLabel, signature } = receipt;
  return {
    ...shared(receipt, sheetHeadOf(head)),
    issuedWords: `${numberWords} · ${issuedWords}`,
    result: { label: resultLabel, words: `${amount.words} ${sale.currency}` },
    opening: voided === '' ? balance : [voided],
    tables: [
      tableOf(facts, [
        ['quantity', '', ({ label }) => label],
        ['words', '', ({ words }) => words],
      ]),
    ],
    signatures: signature === '' ? [] : [signature],
  };
}

export function purchaseList(record: PurchaseRecord, head: SheetStamp['head']): ListPaper {
  return {
    ...shared(record, sheetHeadOf(head)),
    tables: [purchasesTable(record), kindsTable(record)],
    signatures: ['Buyer'],
  };
}

function purchasesTable({ rows, total, sale }: PurchaseRecord): ListTable {
  return tableOf<PurchaseRow>(
    rows,
    [
      ['lot', 'Lot', ({ lotNo }) => lotNo],
      ['date', 'Date', ({ dateWords }) => dateWords],
      ['words', 'Kind', ({ goods, scientificName }) => [goods, scientificName].filter(Boolean).join(', ')],
      ['quantity', 'Number', ({ quantity }) => quantity.words],
      ['price', 'Price', ({ price }) => price.words],
      ['money', 'Amount', ({ amount }) => amount.words],
    ],
    {
      none: 'Nothing bought.',
      sum: 'Total without premium and tax',
      sumAmount: `${total.words} ${sale.currency}`,
      belowOf: (row) => [aboutWords(row), tagsLine(row.tags)],
    },
  );
}

/** Where the goods were taken, what a piece came to and how many there were where the row does not say, and by whom. */
function aboutWords(row: PurchaseRow): string {
  const { sellers, each, by, count } = row;
  const byWeight = by === 'lb' || by === 'oz';
  const parts = [
    takenWords(row),
    byWeight && count !== null ? countWords(count, 'piece') : '',
    each.words === '' ? '' : `${each.words} each`,
    `from ${sellers.map(({ name, address, licence }) => [name, ...address, licence].filter(Boolean).join(', ')).join('; ')}`,
  ];
  return parts.filter((part) => part !== '').join(' · ');
}

/** Where the goods were taken: the State. The association's own section is no county, and stands on no official paper. */
export function takenWords({ takenIn }: PurchaseRecord['rows'][number]): string {
  return `Taken in ${takenIn}`;
}

function kindsTable({ kinds }: PurchaseRecord): ListTable {
  return tableOf(
    kinds,
    [
      ['goods', 'Kind', ({ goods }) => goods],
      ['words', 'How many', ({ words }) => words],
      ['money', 'Amount', ({ amount }) => amount.words],
    ],
    { title: 'By kind' },
  );
}
