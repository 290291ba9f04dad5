import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { canonical, logHead } from '#db/book/log.ts';
import type { Book } from '#db/book/open.ts';
import { openLots } from '#db/lot/open-lots.ts';
import { issuedSheet, issuedSheets, previewSheet, previewSheets } from '#db/settlement/sheets.ts';
import { settlementSheet } from '#lib/settlement/sheet.ts';
import { filesOfCase } from '#tests/papers/support/sheets.ts';
import { caseFolder, filesIn, importFiles, withBook } from '#tests/support/exchange.ts';
import { AT, bobcatTag, hallOf, openHall, rowsOf } from '#tests/support/hall.ts';

const ON = '2026-02-28';
const ASSOCIATION = { name: 'Lantern Ridge Fur Harvesters', city: 'Harrow', region: 'WY', phone: '307-555-0142' };

function withCase(folder: string, use: (book: Book) => void): void {
  withBook((book) => {
    importFiles(book, filesIn(caseFolder(folder)));
    use(book);
  });
}

describe.each(['by-hand', 'sixty-lots'])('the sheets of %s, out of the book', (folder) => {
  it('are those made from the folder’s rows without a book', () => {
    withCase(folder, (book) => {
      const stamp = { number: null, issuedOn: ON, head: logHead(book) };
      const association = {
        name: 'The association',
        street: '',
        city: '',
        region: '',
        postcode: '',
        phone: '',
        email: '',
      };
      const made = filesOfCase(folder).map((file) => settlementSheet({ ...file, association }, stamp));
      expect(previewSheets(book, 1, ON)).toEqual(made);
    });
  });

  it('are issued all at once, numbered from 1 by seller number, with the head of the log before it', () => {
    withCase(folder, (book) => {
      const { must } = hallOf(book, 1);
      // A folder in which lots are still to be called comes in as a sale that is still selling.
      const sale = saleById(book, 1);
      const left = sale ? openLots(book, sale).length : 0;
      if (left > 0) must('lots.withdraw', { saleId: 1, seen: left, reason: 'went home' });
      if (sale?.stage === 'selling') must('sale.stage', { saleId: 1, stage: 'settling', reason: '' });
      const head = logHead(book);
      const before = previewSheets(book, 1, ON);
      const { issued } = must('settlement.issue', { saleId: 1, sellerNo: null, seen: before.length }, 'payout');
      const sheets = issuedSheets(book, 1);
      expect(issued).toEqual(sheets.map(({ sheet, correction, ...row }) => row));
      expect(sheets.map(({ number }) => number)).toEqual(before.map((_, at) => at + 1));
      for (const [at, { sheet }] of sheets.entries()) {
        expect(sheet).toMatchObject({ preview: false, number: at + 1, issuedOn: AT.slice(0, 10), head });
        expect(sheet.steps).toEqual(before[at]?.steps);
        expect(sheet.shares).toEqual(before[at]?.shares);
      }
    });
  });
});

describe('an issued sheet', () => {
  const { book, saleId, must } = openHall();
  must('association.set', ASSOCIATION);
  must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '2', tags: [bobcatTag(1), bobcatTag(2)] });
  must('lot.add', { saleId, sellerNo: 1, goods: 'castor', weight: '7.35' });
  const first = must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '112.75', buyerNo: 10 });
  must('outcome.record', { saleId, lotNo: '2', kind: 'passed' });
  must('settlement.issue', { saleId, sellerNo: 1, issuedOn: '2026-02-27' }, 'payout');
  const [issued] = issuedSheets(book, saleId);

  it('has the association as it is named, the tags of its lots, and the day the hall gave', () => {
    expect(issued?.sheet.association).toEqual({ name: ASSOCIATION.name, address: ['Harrow, WY', '307-555-0142'] });
    expect(issued?.sheet.tags).toMatchObject([{ lotNo: '1', tags: [bobcatTag(1), bobcatTag(2)] }]);
    expect(issued?.sheet.issuedWords).toBe('Issued February 27, 2026');
    expect(issued?.sheet.membership).toBe('member');
  });

  it('is kept as RFC 8785 text, and read back as what was kept', () => {
    const [row] = rowsOf(book).settlement as { model: string }[];
    expect(row?.model).toBe(canonical(issued?.sheet));
    expect(issuedSheet(book, issued?.settlementId ?? 0)).toEqual(issued);
    expect(issuedSheet(book, 99)).toBeUndefined();
  });

  it('stays as it is when what it was made from is corrected, while the preview goes with it', () => {
    const right = { kind: 'sold', price: '100.00', buyerNo: 10, reason: 'misheard', answered: [] } as const;
    must('outcome.correct', { lotId: first.lotId, replacesId: first.outcomeId, ...right });
    must('association.set', { ...ASSOCIATION, name: 'Another name' });
    must('charge.add', { saleId, sellerNo: 1, kind: 'dues', amount: '25.00', how: 'deducted' });
    expect(issuedSheets(book, saleId)).toEqual([issued]);
    const preview = previewSheet(book, { saleId, sellerNo: 1 }, ON);
    expect(preview?.association.name).toBe('Another name');
    expect(preview?.totals.grossCents).toBe(20_000);
    expect(preview?.totals.chargesCents).toBe(2_500);
    expect(issued?.sheet.totals.grossCents).toBe(22_550);
  });

  it('cannot be changed or taken away', () => {
    expect(() => book.sqlite.prepare("UPDATE settlement SET model = '{}'").run()).toThrow('append-only');
    expect(() => book.sqlite.prepare('DELETE FROM settlement').run()).toThrow('append-only');
    expect(must('person.enrol', { name: 'Dee Elm' }).personId).toBeGreaterThan(0);
    expect(issuedSheets(book, saleId)).toEqual([issued]);
  });
});

describe('a preview', () => {
  it('is there at any stage, for a seller number of this sale only', () => {
    const { book, saleId } = openHall();
    expect(previewSheet(book, { saleId, sellerNo: 1 }, ON)).toMatchObject({ number: null, preview: true, sellerNo: 1 });
    expect(previewSheet(book, { saleId, sellerNo: 9 }, ON)).toBeUndefined();
    expect(issuedSheets(book, saleId)).toEqual([]);
  });
});
