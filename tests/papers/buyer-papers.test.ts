import { mkdirSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { renderSheets } from '#app/papers/render.ts';
import { logHead } from '#db/book/log.ts';
import { buyerPayment } from '#db/buyer/files.ts';
import { csvText } from '#db/exchange/csv.ts';
import { issuedInvoices, previewInvoice } from '#db/invoice/queries.ts';
import { invoiceList, purchaseList, receiptList } from '#lib/buyer/lists.ts';
import { PURCHASE_COLUMNS, purchaseCells, purchaseRecord } from '#lib/buyer/purchase-record.ts';
import { receiptPaper } from '#lib/invoice/paper.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import { checked, oneSpaced, readBack } from '#tests/papers/support/pdf.ts';
import { buyersDay } from '#tests/support/sales.ts';

/** Every text of a paper that is printed once. */
function wordsOf({ tables, opening, closing, parties, signatures, result, ...paper }: ListPaper): string[] {
  const cells = tables.flatMap(({ rows, below = [] }) => [
    ...rows.flatMap((row) => row.flatMap(({ words, fine }) => [words, ...fine])),
    ...below.flat(),
  ]);
  return [
    ...[paper.title, paper.issuedWords, paper.head.words, paper.caution, paper.association.name, paper.sale.name],
    ...[...paper.remarks, ...opening, ...signatures, ...cells, result?.label ?? '', result?.words ?? ''],
    ...tables.flatMap(({ sum, sumAmount = '' }) => [sum, sumAmount]),
    ...[...closing, ...parties].flatMap(({ title, sentences }) => [title, ...sentences]),
  ].filter((words) => words !== '');
}

/** The texts of which some word is not on the paper; a text in a narrow column may be wrapped. */
function missing(text: string, wanted: readonly string[]): string[] {
  return wanted.filter(
    (words) =>
      !oneSpaced(words)
        .split(' ')
        .every((word) => text.includes(word)),
  );
}

const MONEY = /-?\d[\d,]*\.\d{2}\b/g;

/** Draws a paper, and holds every word and every amount on it against its model. */
async function drawn(name: string, paper: ListPaper): Promise<string> {
  const bytes = await renderSheets([paper], { size: 'letter' });
  if (process.env.PAPERS_KEPT_IN) {
    mkdirSync(process.env.PAPERS_KEPT_IN, { recursive: true });
    writeFileSync(`${process.env.PAPERS_KEPT_IN}/${name}.pdf`, bytes);
  }
  const back = readBack(bytes);
  expect(checked(back)).toContain('No syntax or stream encoding errors found');
  const said = wordsOf(paper);
  expect(missing(back.text, said)).toEqual([]);
  const amounts = (text: string) => (text.match(MONEY) ?? []).sort();
  expect(amounts(back.text)).toEqual(amounts(said.join(' ')));
  return back.text;
}

describe('the papers of a buyer', () => {
  it('an invoice, issued: each word and figure of the model and no other figure, names with their marks', async () => {
    const { book, saleId, must } = buyersDay();
    must('payment.record', {
      saleId,
      direction: 'in',
      buyerNo: 30,
      method: 'check',
      amount: '100.00',
      reference: '88',
    });
    must('invoice.issue', { saleId, buyerNo: 30, issuedOn: '2026-02-28' });
    const [issued] = issuedInvoices(book, saleId);
    if (!issued) throw new Error('no invoice');
    const text = await drawn('invoice', invoiceList(issued.invoice));
    // 87.00 + 15.07 (15.0675) + 250.00 + 101.30 = 453.37; premium 4.35 + 0.75 + 12.50 + 5.07 = 22.67; 476.04 at 6.5 % = 30.94.
    expect(text).toContain('Total 506.98');
    expect(text).toContain('Invoice 1 · Issued February 28, 2026');
    for (const words of [
      'Łucja Żółć',
      'Ğülşen',
      'US-CITES WY BOB 2025 000001',
      'To pay 406.98 USD',
      'Check 88 100.00',
    ]) {
      expect(text).toContain(words);
    }
  });

  it('a correcting invoice: before, after and the difference of each lot and each sum', async () => {
    const { book, saleId, must } = buyersDay();
    must('invoice.issue', { saleId, buyerNo: 30, issuedOn: '2026-02-28' });
    const right = { kind: 'sold', price: '115.00', buyerNo: 30, reason: 'misheard' } as const;
    must('outcome.correct', { lotId: 3, replacesId: 3, ...right });
    must('invoice.issue', { saleId, buyerNo: 30, issuedOn: '2026-03-01' });
    const [old, correcting] = issuedInvoices(book, saleId);
    if (!old || !correcting) throw new Error('two invoices are needed');
    const text = await drawn('correcting-invoice', invoiceList(correcting.invoice));
    expect(text).toContain('Corrects invoice 1 of February 28, 2026');
    expect(text).toMatch(/Lot 3, Bobcat, changed 250\.00 230\.00 -20\.00/);
    expect(text).toMatch(/Total 506\.98 484\.62 -22\.36/);
    expect(await drawn('old-invoice', invoiceList(old.invoice))).not.toContain('Correcting');
  });

  it('a preview says so, and an empty account has no lots', async () => {
    const { book, file } = buyersDay();
    const preview = await drawn('preview', invoiceList(previewInvoice(book, { file: file() }, '2026-02-28')));
    expect(preview).toContain('PREVIEW: invoice');
    expect(preview).toContain('not issued');
    const nothing = { ...file(), lots: [], outcomes: [], tags: [] };
    expect(await drawn('empty', invoiceList(previewInvoice(book, { file: nothing }, '2026-02-28')))).toContain(
      'No lots.',
    );
  });

  it('a receipt says who took how much by what, and a voided one says VOID', async () => {
    const { book, saleId, file, must } = buyersDay();
    must('invoice.issue', { saleId, buyerNo: 30 });
    must('payment.record', {
      saleId,
      direction: 'in',
      buyerNo: 30,
      method: 'check',
      amount: '1234.50',
      reference: 'N° 7',
      answered: ['more_than_owed'],
    });
    const receipt = () => {
      const payment = buyerPayment(book, 1);
      if (!payment) throw new Error('no payment');
      return receiptPaper(file(), { ...payment, paidOn: '2026-02-28', paidTime: '4:05 PM' });
    };
    const text = await drawn('receipt', receiptList(receipt(), logHead(book)));
    for (const words of [
      'Payment 1 · Taken February 28, 2026, 4:05 PM',
      '1,234.50 USD',
      'By Check',
      'N° 7',
      'invoice 1',
      'Ada',
      // 1,234.50 less 506.98.
      'After this payment the association owes the buyer $727.52',
    ]) {
      expect(text).toContain(words);
    }
    must('payment.void', { paymentId: 1, reason: 'wrong buyer' });
    expect(await drawn('void-receipt', receiptList(receipt(), logHead(book)))).toContain('VOID: wrong buyer');
  });

  it('a purchase record names seller, licence, kind, number, price, tags, section and State of take', async () => {
    const { book, file } = buyersDay();
    // As if the tag had broken on the way to the counter.
    const broke = file().tags.map((one, at) => (at === 1 ? { ...one, condition: 'broken' as const } : one));
    const record = purchaseRecord({ ...file(), tags: broke }, '2026-02-28');
    const text = await drawn('purchase-record', purchaseList(record, logHead(book)));
    for (const words of [
      ...['Zoë Ærøe', '3 Cold Fork Road', 'Íñigo Creek', 'T-77', 'Raccoon', '12 pieces', '7.25 each', 'Taken in US-WY'],
      ...['7.35 oz', '101.30 the lot', '10.13 each', 'Total without premium and tax 453.37 USD'],
    ]) {
      expect(text).toContain(words);
    }
    expect(text).toContain('Lot 3: tag US-CITES WY BOB 2025 000002 is not exportable until replaced.');
    expect(record.rows[2]?.tags.map(({ exportable }) => exportable)).toEqual([true, false]);
    expect(text).toContain('check with your wildlife agency');
  });

  it('a purchase record is a table of the same figures, and no cell is a formula', () => {
    const { file } = buyersDay();
    const lots = file().lots.map((lot) => (lot.lotNo === '2' ? { ...lot, takenIn: '=1+1' } : lot));
    const record = purchaseRecord({ ...file(), lots }, '2026-02-28');
    const rows = purchaseCells(record);
    const column = (name: string) => rows.map((row) => row[PURCHASE_COLUMNS.indexOf(name)]);
    expect(column('lot_no')).toEqual(['1', '2', '3', '4']);
    expect(column('amount')).toEqual(['87.00', '15.07', '250.00', '101.30']);
    expect(column('quantity')).toEqual(['12', '7.35', '2', '10']);
    expect(column('each')).toEqual(['', '', '', '10.13']);
    expect(column('seller')).toEqual(['Ada Birch; Zoë Ærøe', 'Ada Birch', 'Ada Birch; Zoë Ærøe', 'Ada Birch']);
    expect(column('taken_in')).toEqual(['US-WY', "'=1+1", 'US-WY', 'US-WY']);
    expect(column('county')).toEqual(['', '', '', '']);
    expect(column('tags')[2]).toBe('US-CITES WY BOB 2025 000001; US-CITES WY BOB 2025 000002');
    expect(csvText(PURCHASE_COLUMNS, rows).split('\r\n')[0]).toBe(PURCHASE_COLUMNS.join(','));
  });
});
