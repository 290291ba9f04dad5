/** The year of a book with two sales in it and one in the next: every figure worked out by hand. */
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { type YearPaper, yearFile, yearPaper, yearView } from '#db/report/year.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import { yearHall } from '#tests/papers/support/year.ts';
import { openHall } from '#tests/support/hall.ts';
import { closeSale, OF_TEN, paidHall } from '#tests/support/sales.ts';

/** Both buyers paid by check, and both sellers by check; closed. */
function closedHall() {
  const hall = paidHall();
  closeSale(hall, 1);
  return hall;
}

const ON = '2027-03-02';
const { book, sales } = yearHall();

const rowsOf = (paper: YearPaper, of: Parameters<typeof yearFile>[1]['of']) =>
  parse(yearFile(book, { paper, of }), { columns: true }) as Record<string, string>[];
const sale = (saleId: number) => {
  const row = saleById(book, saleId);
  if (!row) throw new Error('the sale is not in the book');
  return row;
};
/** The rows of each table in words, without the small lines. */
const wordsOf = ({ tables }: ListPaper) => tables.map(({ rows }) => rows.map((row) => row.map(({ words }) => words)));

describe('the year by person', () => {
  it('adds up the numbers and sales of each person, partners by their parts', () => {
    // 200.00 + 100.00 less 6 % each, 0.25 a lot and 5.00 a number, 2.50; number 2 is a guest’s: 100.10 less 10.01 and 5.25.
    expect(wordsOf(yearPaper(book, { paper: 'year-by-person', of: '2026' }, ON))).toEqual([
      [
        ['Ada Birch', '300.00', '18.00', '10.75', '2.50', '268.75', '268.75'],
        ['Cal Dunn', '66.73', '6.67', '3.50', '0.00', '56.56', '0.00'],
        ['Gus Hale', '33.37', '3.34', '1.75', '0.00', '28.28', '28.28'],
        ['In all', '400.10', '28.01', '16.00', '2.50', '353.59', '297.03'],
      ],
    ]);
  });

  it('counts what was paid at 11 at night on December 31 in its year, and what was paid after midnight in the next', () => {
    // Ada sells as a guest in 2027: 100.00 less 10.00 and 5.25. Cal was paid for a sale of the year before.
    expect(wordsOf(yearPaper(book, { paper: 'year-by-person', of: '2027' }, ON))).toEqual([
      [
        ['Ada Birch', '100.00', '10.00', '5.25', '0.00', '84.75', '0.00'],
        ['Cal Dunn', '0.00', '0.00', '0.00', '0.00', '0.00', '56.56'],
        ['In all', '100.00', '10.00', '5.25', '0.00', '84.75', '56.56'],
      ],
    ]);
  });

  it('names in the file who it is and under which numbers', () => {
    expect(rowsOf('year-by-person', '2026')[2]).toEqual({
      ...{ year: '2026', person: 'Gus Hale', street: '8 Kettle Lane', city: 'Cold Kettle', region: '', postcode: '' },
      ...{ member_no: '', seller_numbers: 'Seller 2, 1 of 3 parts, Late Winter Sale, February 28, 2026' },
      ...{ currency: 'USD', gross: '33.37', commission: '3.34', fees: '1.75', charges: '0.00', net: '28.28' },
      paid: '28.28',
    });
  });
});

describe('the sales tax', () => {
  it('of a year is that of each sale and of both, with the certificate of the exempt buyer', () => {
    // 100.00 + 5.00 and 100.10 + 5.01 at 6.5 % are 13.66; 100.00 + 5.00 exempt; 100.00 + 5.00 at 6.5 % are 6.83.
    expect(wordsOf(yearPaper(book, { paper: 'sales-tax', of: '2026' }, ON))).toEqual([
      [
        ['Late Winter Sale, February 28, 2026', '210.11', '105.00', '13.66', '328.77'],
        ['Early Winter Sale, December 5, 2026', '105.00', '0.00', '6.83', '111.83'],
        ['In all', '315.11', '105.00', '20.49', '440.60'],
      ],
      [['Ilse Roth', 'EX-77', '105.00']],
    ]);
  });

  it('of one sale is that sale’s alone', () => {
    const paper = yearPaper(book, { paper: 'sales-tax', of: sale(sales.early) }, ON);
    expect(paper.sale.name).toBe('Early Winter Sale');
    expect(wordsOf(paper)[0]?.at(-1)).toEqual(['In all', '105.00', '0.00', '6.83', '111.83']);
    expect(paper.tables[1]?.none).toBe('No exempt buyer has bought.');
    expect(rowsOf('sales-tax', sale(sales.early))).toHaveLength(1);
  });

  it('says what was billed and written off, which its figures still hold', () => {
    const hall = closedHall();
    const row = saleById(hall.book, 1);
    if (!row) throw new Error('the sale is not in the book');
    const remarks = () => yearPaper(hall.book, { paper: 'sales-tax', of: row }, ON).remarks.join(' ');
    expect(remarks()).not.toContain('written off');
    hall.must('check.bounce', { paymentId: OF_TEN, fee: '', reason: 'no funds' });
    hall.must('payment.writeoff', { saleId: 1, buyerNo: 10, amount: '111.83', reason: 'moved away' });
    expect(remarks()).toContain('111.83 USD that buyers were billed was written off');
  });

  it('has a row for each buyer in the file', () => {
    const rows = rowsOf('sales-tax', '2026');
    expect(rows.map(({ buyer_no: no, taxable, exempt_amount: exempt, tax }) => [no, taxable, exempt, tax])).toEqual([
      ['10', '210.11', '0.00', '13.66'],
      ['13', '0.00', '105.00', '0.00'],
      ['20', '105.00', '0.00', '6.83'],
    ]);
    expect(rows[1]).toMatchObject({ exempt: 'yes', certificate: 'EX-77', tax_pct: '6.5' });
  });
});

describe('large cash payments', () => {
  it('are those of one person over both sales, without what was voided or came by check', () => {
    const paper = yearPaper(book, { paper: 'large-cash', of: '2026' }, ON);
    expect(paper.tables.map(({ title, sumAmount }) => [title, sumAmount])).toEqual([
      ['Bea Cole, 10,000.01 USD within twelve months, more than 10,000.00 since December 31, 2026', '10,000.01'],
    ]);
    expect(wordsOf(paper)[0]?.map(([day, where, , amount]) => [day, where, amount])).toEqual([
      ['February 28, 2026', 'Late Winter Sale, February 28, 2026, buyer 10', '4,000.00'],
      ['December 5, 2026', 'Early Winter Sale, December 5, 2026, buyer 20', '4,000.00'],
      ['December 31, 2026', 'Early Winter Sale, December 5, 2026, buyer 20', '2,000.01'],
    ]);
    expect(paper.opening.join(' ')).toContain('Form 8300');
    expect(rowsOf('large-cash', '2026')[2]).toMatchObject({
      ...{ person: 'Bea Cole', within_12_months: '10000.01', over_since: '2026-12-31', paid_on: '2026-12-31' },
      ...{ sale: 'Early Winter Sale', held_on: '2026-12-05', buyer_no: '20', amount: '2000.01' },
    });
  });
});

describe('the page of the year', () => {
  it('offers the years in which something was held or paid, and shows that of the sale unless asked for another', () => {
    const shown = (asked: string | undefined, saleId: number) => yearView(book, { asked, sale: sale(saleId) }, ON);
    expect(shown(undefined, sales.early)).toMatchObject({ year: '2026', years: ['2027', '2026'] });
    expect(shown('2027', sales.early).year).toBe('2027');
    expect(shown('soon', sales.next).year).toBe('2027');
    expect(shown('2024', sales.next).years).toEqual(['2027', '2026', '2024']);
  });

  it('says in a sentence that a year is empty', () => {
    const { papers } = yearView(book, { asked: '2024', sale: sale(sales.next) }, ON);
    expect(papers.flatMap(({ list }) => list.tables.map(({ rows, none }) => [rows.length, none]))).toEqual([
      [0, 'No seller number of 2024 is settled yet, and nobody was paid as a seller in 2024.'],
      [0, 'No sale of 2024 is settled yet: there is no sales tax to work out.'],
      [0, 'No buyer paid more than 10,000.00 in cash within twelve months that end in 2024.'],
    ]);
    expect(papers[0]?.list.sale.words).toBe('No sale was held');
  });

  it('leaves out a sale that is still being called, and says so', () => {
    const hall = openHall();
    hall.must('lot.add', { saleId: 1, sellerNo: 1, goods: 'raccoon', count: '3' });
    hall.must('outcome.record', { saleId: 1, lotNo: '1', kind: 'sold', price: '7.00', buyerNo: 10 });
    const of = saleById(hall.book, 1);
    if (!of) throw new Error('the sale is not in the book');
    const people = yearPaper(hall.book, { paper: 'year-by-person', of: '2026' }, ON);
    expect(people.tables[0]?.rows).toEqual([]);
    expect(people.remarks[0]).toMatch(/^Not counted yet: Late Winter Sale, February 28, 2026\./);
    const tax = yearPaper(hall.book, { paper: 'sales-tax', of }, ON);
    expect(tax.remarks[0]).toBe('This sale is not settled yet: these figures may still change.');
    expect(wordsOf(tax)[0]?.at(-1)?.at(-1)).toBe('23.48');
  });
});
