/** The papers of payout read back from the page: every word and figure of the model, names with their diacritics, and a file without fault. */
import { parse } from 'csv-parse/sync';
import { beforeAll, describe, expect, it } from 'vitest';
import { renderSheets } from '#app/papers/render.ts';
import { type SaleRow, saleById } from '#db/book/find.ts';
import { paperGround } from '#db/lot/papers.ts';
import { sellerPayment } from '#db/payment/receipts.ts';
import { payoutFile, payoutPapers } from '#db/settlement/papers.ts';
import { type IssuedSheet, issuedSheets } from '#db/settlement/sheets.ts';
import type { StubPage } from '#lib/paper/labels.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import { sellerReceipt } from '#lib/payment/seller-receipt.ts';
import { asPrinted } from '#lib/settlement/correction.ts';
import { missingFrom, textsOf } from '#tests/papers/support/list-texts.ts';
import { checked, fonts, oneSpaced, readBack } from '#tests/papers/support/pdf.ts';
import { bobcatTag, openHall } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

const ON = '2026-03-02';
const hall = openHall();

/** A sold lot of two partners with hard names, a tagged lot that went home, a void check and a corrected sheet. */
function fill(): SaleRow {
  const { must, saleId, book } = hall;
  must('association.set', { name: 'Lantern Ridge Fur Harvesters', street: '14 Cooperage Row', city: 'Lantern Ridge' });
  const enrol = (name: string, more = {}) =>
    must('person.enrol', { name, street: '8 Kettle Lane', city: 'Cold Kettle', ...more }).personId;
  const partners = [
    {
      personId: enrol('Łucja Żak-Næss', { licenceNo: 'T-501', licenceRegion: 'US-WY', memberUntil: '2026-12-31' }),
      parts: 2,
    },
    {
      personId: enrol('Görkem Ílhan', { licenceNo: 'T-502', licenceRegion: 'US-MT', memberUntil: '2026-12-31' }),
      parts: 1,
    },
  ];
  must('seller.register', { saleId, sellerNo: 2, partners });
  must('lot.add', { saleId, sellerNo: 2, goods: 'raccoon', count: '11', section: 'Foothills' });
  must('lot.add', { saleId, sellerNo: 2, goods: 'bobcat', count: '2', tags: [bobcatTag(1), bobcatTag(2)] });
  must('lot.add', { saleId, sellerNo: 1, goods: 'castor', weight: '7.35' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.75', buyerNo: 10 });
  must('outcome.record', { saleId, lotNo: '2', kind: 'passed' });
  must('outcome.record', { saleId, lotNo: '3', kind: 'sold', price: '3.50', buyerNo: 11 });
  must('settlement.issue', { saleId, sellerNo: null, seen: 2 });
  must('check.write', { saleId, sellerNo: null, firstNumber: 1041, seen: 3 });
  must('check.reissue', { checkId: 1, number: 1050, reason: 'lost in the post' });
  must(
    'outcome.correct',
    { lotId: 1, replacesId: 1, kind: 'sold', price: '8.75', buyerNo: 10, reason: 'misheard' },
    'block',
  );
  must('settlement.correct', { saleId, sellerNo: 2, reason: 'the price of lot 1 was misheard' });
  closeSale(hall, saleId);
  const sale = saleById(book, saleId);
  if (!sale) throw new Error('the sale is not in the book');
  return sale;
}

/** The lists of these papers, with the stubs that share a page. */
function listsOf(papers: readonly (ListPaper | StubPage)[]): ListPaper[] {
  return papers.flatMap((one) => (one.paper === 'stubs' ? one.stubs.map(({ list }) => list) : [one]));
}

/**
 * Partners Bea (person 2) and Cal (3) sold ten for 10.00 each, some were paid, and the price was corrected. Where
 * `even`, both are paid what the corrected price comes to before the correction goes out.
 */
function correctedSheet(price: string, paid: readonly number[], even = false): IssuedSheet {
  const { book, must, saleId } = openHall();
  const half = (personId: number) => ({ personId, parts: 1 });
  must('seller.register', { saleId, sellerNo: 2, partners: [half(2), half(3)] });
  must('lot.add', { saleId, sellerNo: 2, goods: 'raccoon', count: '10' });
  const sold = { kind: 'sold', buyerNo: 12 } as const;
  must('outcome.record', { saleId, lotNo: '1', ...sold, price: '10.00' });
  must('settlement.issue', { saleId, sellerNo: 2 });
  const out = { saleId, direction: 'out', sellerNo: 2, method: 'cash' } as const;
  for (const personId of paid) {
    must('payment.record', { ...out, personId, amount: personId === 2 ? '44.38' : '44.37' });
  }
  if (even) {
    must('payment.record', { ...out, personId: 2, amount: '39.68' });
    must('payment.record', { ...out, personId: 3, amount: '39.67' });
  }
  must('outcome.correct', { lotId: 1, replacesId: 1, ...sold, price, reason: 'misheard' });
  must('settlement.correct', { saleId, sellerNo: 2, reason: 'the price of lot 1 was misheard' });
  const issued = issuedSheets(book, saleId).at(-1);
  if (!issued) throw new Error('no sheet was issued');
  return issued;
}

const KINDS = ['check-register', 'check-stubs', 'balance', 'closing-report', 'kept', 'agency-return', 'held-over'];
let sale: SaleRow;
beforeAll(() => {
  sale = fill();
});

const papersOf = (paper: string) => payoutPapers(hall.book, sale, { paper, drawnOn: ON, check: null }) ?? [];

describe('the papers of payout', () => {
  it.each(KINDS)('%s: every word of the model stands on it, and qpdf finds no fault', async (kind) => {
    const papers = papersOf(kind);
    expect(papers.length).toBeGreaterThan(0);
    const back = readBack(await renderSheets(papers, { size: 'letter' }));
    expect(missingFrom(back.text, listsOf(papers).flatMap(textsOf))).toEqual([]);
    expect(checked(back)).toContain('No syntax or stream encoding errors found');
    expect(fonts(back).every(({ embedded, unicode }) => embedded && unicode)).toBe(true);
  });

  it('the correction sheet stands with before, now and the difference in one line each', async () => {
    const correction = issuedSheets(hall.book, sale.id).find((issued) => issued.correction)?.correction;
    if (!correction) throw new Error('no sheet was corrected');
    const back = readBack(await renderSheets([correction.report, correction.now], { size: 'a4' }));
    expect(missingFrom(back.text, textsOf(correction.report))).toEqual([]);
    // 11 × 7.75 = 85.25 less 5.115 up to 5.12, 0.25 and 1.25 lot and no-sale fees, 5.00; then 96.25 less 5.775 up to 5.78.
    expect(oneSpaced(back.pages[0] ?? '')).toContain('Net 73.63 83.97 +10.34');
    expect(oneSpaced(back.pages[0] ?? '')).toContain('Łucja Żak-Næss 55.98 49.09 6.89');
    expect(checked(back)).toContain('No syntax or stream encoding errors found');
  });

  const both = [2, 3];
  const onlyCal = ['Bea Cole, please pay back to the association: 4.70', 'Cal Dunn, still to be paid to you: 39.67'];
  // 10 × 10.00 less 6.00, 0.25 and 5.00 is 88.75, in halves 44.38 and 44.37; at 9.00 79.35, in halves 39.68 and 39.67.
  describe.each([
    {
      what: 'to be paid back',
      price: '9.00',
      paid: both,
      net: '79.35',
      left: ['Please pay back 9.40 USD'],
    },
    { what: 'still to be paid', price: '11.00', paid: both, net: '98.15', left: ['Still to be paid to you 9.40 USD'] },
    {
      what: 'to be paid as a whole',
      price: '9.00',
      paid: [],
      net: '79.35',
      left: ['Still to be paid to you 79.35 USD'],
    },
    { what: 'to be paid by one and to the other', price: '9.00', paid: [2], net: '79.35', left: onlyCal },
    {
      what: 'of a bill',
      price: '0.25',
      paid: both,
      net: '-2.90',
      left: ['Please pay back 91.65 USD'],
    },
  ])('a correction with something $what', ({ price, paid, net, left }) => {
    it('says what is left to pay once, on its first page, and the sheet behind it only what the net is', async () => {
      const issued = correctedSheet(price, paid);
      const { sheet, report } = asPrinted(issued);
      if (!report) throw new Error('no sheet was corrected');
      const back = readBack(await renderSheets([report, sheet], { size: 'letter' }));
      const [first = '', ...behind] = back.pages.map(oneSpaced);
      for (const words of left) expect(first).toContain(words);
      const text = behind.join(' ');
      expect(text).toContain(`Net proceeds, corrected ${net} USD`);
      expect(text).toContain('Share of each partner, corrected');
      expect(missingFrom(text, [sheet.result.sentence])).toEqual([]);
      expect(text).not.toMatch(
        /paid to you|Payable to|Owed|owes|pay back|Please pay|is a bill|partners share it|check no|taken by/,
      );
      // The frozen copy keeps its own words.
      expect(issued.sheet.result.label).toMatch(/^(To be paid to you|Owed to the association)$/);
    });
  });

  it('a correction with nothing left to pay says so', async () => {
    const issued = correctedSheet('9.00', [], true);
    const { sheet, report } = asPrinted(issued);
    if (!report) throw new Error('no sheet was corrected');
    const back = readBack(await renderSheets([report, sheet], { size: 'letter' }));
    expect(oneSpaced(back.pages[0] ?? '')).toContain('Nothing is left to pay 0.00 USD');
    expect(oneSpaced(back.pages[1] ?? '')).toContain('Net proceeds, corrected 79.35 USD');
  });

  it('the return has each partner with their licence above what they sold', () => {
    const [list] = listsOf(papersOf('agency-return'));
    expect(list?.tables.map(({ title }) => title)).toEqual([
      'Seller 1: Ada Birch, no licence shown',
      'Seller 2: Łucja Żak-Næss, licence T-501, US-WY; Görkem Ílhan, licence T-502, US-MT; 8 Kettle Lane, Cold Kettle',
    ]);
  });

  it('the stub of a further check lists what was paid before and what is left, the first one not', () => {
    const { book, saleId, must } = openHall();
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
    must('settlement.issue', { saleId, sellerNo: 1 });
    must('payment.record', { saleId, direction: 'out', sellerNo: 1, method: 'cash', amount: '40.00' });
    must('check.write', { saleId, sellerNo: 1, firstNumber: 1041 });
    const row = saleById(book, saleId);
    const papers = row ? (payoutPapers(book, row, { paper: 'check-stubs', drawnOn: ON, check: null }) ?? []) : [];
    const rows = listsOf(papers).flatMap(({ tables }) => tables.flatMap((table) => table.rows));
    // 100.00 less 6.00, 0.25 and 5.00 is 88.75.
    expect(rows.slice(-4).map((one) => one.map(({ words }) => words))).toEqual([
      ['Net', '88.75'],
      ['less cash, February 28, 2026', '40.00'],
      ['This check', '48.75'],
      ['Left to pay', '0.00'],
    ]);
  });

  it('a seller who is paid in cash signs a receipt that says what was paid before and what is left', async () => {
    const { book, saleId, must } = openHall();
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
    must('settlement.issue', { saleId, sellerNo: 1 });
    const cash = (amount: string) =>
      must('payment.record', { saleId, direction: 'out', sellerNo: 1, personId: 1, method: 'cash', amount }).paymentId;
    const [first, second] = [cash('40.00'), cash('48.75')];
    const row = saleById(book, saleId);
    if (!row) throw new Error('the sale is not in the book');
    const textOf = async (paymentId: number) => {
      const paid = sellerPayment(book, paymentId);
      if (!paid) throw new Error('no payment');
      const back = readBack(await renderSheets([sellerReceipt(paperGround(book, row, ON), paid)], { size: 'letter' }));
      expect(checked(back)).toContain('No syntax or stream encoding errors found');
      return back.text;
    };
    const text = await textOf(first);
    for (const words of [
      ...['Receipt for money paid out', 'Ada Birch', 'Paid to you 40.00 USD', 'Towards sheet 1', 'By Cash'],
      ...['Still to be paid to you after this payment: $48.75', 'Share of sheet 1 88.75', 'less this payment 40.00'],
      ...['Left to pay 48.75', 'Received by the seller'],
    ]) {
      expect(text).toContain(words);
    }
    const further = await textOf(second);
    for (const words of [
      'Paid in full',
      'less cash, February 28, 2026 40.00',
      'less this payment 48.75',
      'Left to pay 0.00',
    ]) {
      expect(further).toContain(words);
    }
    must('payment.void', { paymentId: first, reason: 'not handed over' }, 'payout');
    expect(await textOf(first)).toContain('VOID: not handed over');
    // What was voided later stood when the second was paid.
    expect(await textOf(second)).toContain('Paid in full');
  });

  it('are asked for by names that exist, and there is no other', () => {
    expect(payoutPapers(hall.book, sale, { paper: 'recipes', drawnOn: ON, check: null })).toBeUndefined();
    expect(listsOf(papersOf('check-stubs')).map(({ number }) => number?.words)).not.toContain('1041');
  });
});

describe('the papers of a minor with a guardian as payee', () => {
  const { book, must, saleId } = openHall();
  const payee = 'Dana Cole-Żak, guardian of Sam Cole';
  const sam = must('person.enrol', { name: 'Sam Cole', memberUntil: '2026-12-31', payee }).personId;
  must('seller.register', { saleId, sellerNo: 2, partners: [{ personId: sam }, { personId: 2 }] });
  must('lot.add', { saleId, sellerNo: 2, goods: 'raccoon', count: '10' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 11 });
  must('settlement.issue', { saleId, sellerNo: 2 });
  must('check.write', { saleId, sellerNo: 2, firstNumber: 1041 });
  const textOf = async (papers: Parameters<typeof renderSheets>[0]) =>
    oneSpaced(readBack(await renderSheets(papers, { size: 'letter' })).text);
  const papers = (paper: string) => {
    const row = saleById(book, saleId);
    return (row && payoutPapers(book, row, { paper, drawnOn: ON, check: null })) ?? [];
  };

  it('say on the sheet who is paid, beside whose share it is, and nothing of the other partner', async () => {
    const sheet = issuedSheets(book, saleId)[0]?.sheet;
    if (!sheet) throw new Error('no sheet was issued');
    // 10 × 10.00 less 6.00, 0.25 and 5.00 is 88.75, in halves 44.38 and 44.37.
    expect(sheet.shares.map(({ name, paidTo }) => [name, paidTo])).toEqual([
      ['Sam Cole', `Paid to ${payee}`],
      ['Bea Cole', undefined],
    ]);
    expect(Object.keys(sheet.shares[1] ?? {})).not.toContain('paidTo');
    const text = await textOf([sheet]);
    expect(text).toContain(`Paid to ${payee}`);
    expect(text.split('Paid to')).toHaveLength(2);
  });

  it('make the check out to the guardian, on its stub, in the register and in the file', async () => {
    const stubs = await textOf(papers('check-stubs'));
    expect(stubs).toContain(`Check 1041 of 44.38 USD to ${payee}, for sheet 1 of seller number 2.`);
    expect(stubs).toContain('Check 1042 of 44.37 USD to Bea Cole, for sheet 1 of seller number 2.');
    const register = await textOf(papers('check-register'));
    expect(missingFrom(register, [payee, 'for Sam Cole', 'Bea Cole'])).toEqual([]);
    const row = saleById(book, saleId);
    const file = (row && payoutFile(book, row, { file: 'checks.csv', drawnOn: ON })) ?? '';
    expect((parse(file, { columns: true }) as { payee: string }[]).map((one) => one.payee)).toEqual([
      payee,
      'Bea Cole',
    ]);
  });
});

describe('the files of payout', () => {
  const rowsOf = (file: string) =>
    parse(payoutFile(hall.book, sale, { file, drawnOn: ON }) ?? '', { columns: true }) as Record<string, string>[];

  it('the register has void checks with their amounts', () => {
    const [first] = rowsOf('checks.csv');
    expect(first).toMatchObject({ check: '1041', state: 'void', amount: expect.stringMatching(/^\d+\.\d\d$/) });
    expect(rowsOf('checks.csv').find(({ check }) => check === '1050')).toMatchObject({
      state: 'good',
      remark: 'in place of 1041',
    });
  });

  it('the return has the columns of the State rules, with the names and the licences of both partners', () => {
    expect(rowsOf('agency_return.csv')[0]).toMatchObject({
      ...{ date: '2026-02-28', seller: 'Łucja Żak-Næss, Görkem Ílhan', goods: 'Raccoon' },
      licence: 'T-501, US-WY; T-502, US-MT',
      ...{ count: '11', price: '8.75', amount: '96.25', state: 'US-WY', county: '', buyer: 'Bea Cole' },
    });
  });

  it('what is held over names tags and the day, where the season’s close is known', () => {
    const [held] = rowsOf('held_over.csv');
    const tags = [bobcatTag(1), bobcatTag(2)].map(({ tag }) => tag).join('; ');
    expect(held).toMatchObject({ seller_no: '2', goods: 'Bobcat', tags, outcome: 'no-sale', statement_due: '' });
  });

  it('the journal and the tag register are those of the exchange folder', () => {
    expect(rowsOf('journal.csv').length).toBeGreaterThan(5);
    expect(rowsOf('tag_register.csv')).toHaveLength(2);
    expect(payoutFile(hall.book, sale, { file: 'sale.json', drawnOn: ON })).toBeUndefined();
  });
});
