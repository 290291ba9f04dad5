import { describe, expect, it } from 'vitest';
import { logHead } from '#db/log.ts';
import { lotListView } from '#db/queries/lot-list-view.ts';
import type { Refusal } from '#lib/result.ts';
import { readRows } from '#tests/support/case-folder.ts';
import { exportFiles, importFiles, withBook } from '#tests/support/exchange.ts';
import { caseFolder, filesIn } from '#tests/support/folder.ts';
import { AT, type Hall, hallOf, openHall, rowsOf } from '#tests/support/hall.ts';

const raccoon = { goods: 'raccoon', count: '3', size: 'L', grade: 'II', minimum: '8.00' };
const list = (...rows: readonly object[]) => ({ saleId: 1, sellerNo: 1, rows });
const fieldsOf = ({ field, also = [] }: Refusal) => [field, ...also.map((one) => one.field)];

describe('lots.add', () => {
  it('checks in every row under the next free numbers, in one line of the log', () => {
    const { book, must } = openHall();
    must('lot.add', { saleId: 1, sellerNo: 1, goods: 'raccoon', count: '1' });
    const before = logHead(book).seq;
    const given = must(
      'lots.add',
      list(raccoon, { goods: 'Castor', by: 'oz', weight: '15.5' }, { goods: 'bobcat', count: '2' }),
    );
    expect(given).toEqual({ lots: ['2', '3', '4'], onHold: ['4'] });
    expect(logHead(book).seq).toBe(before + 1);
    expect(rowsOf(book).lot?.slice(1)).toMatchObject([
      { lot_number: 2, count: 3, size: 'L', grade: 'II', minimum_cents: 800, by: 'piece' },
      { lot_number: 3, by: 'oz', weight_thousandths: 15_500 },
      { lot_number: 4, count: 2 },
    ]);
  });

  it('takes none where one cell is wrong, and tells every problem by its row and column', () => {
    const { book, give } = openHall();
    const before = rowsOf(book);
    const rows = [
      raccoon,
      { ...raccoon, count: 'three', minimum: '8.005', donated: 'perhaps' },
      { goods: 'unicorn', count: '1', seller_no: '9' },
      { goods: 'castor', count: '4' },
      { goods: '', by: 'dozen', count: '' },
    ];
    const answer = give('lots.add', list(...rows), { station: 'intake' });
    expect(answer.ok ? [] : fieldsOf(answer).sort()).toEqual([
      ...['rows.1.count', 'rows.1.donated', 'rows.1.minimum', 'rows.2.goods', 'rows.2.seller_no'],
      ...['rows.3.weight', 'rows.4.by', 'rows.4.goods'],
    ]);
    expect(rowsOf(book)).toEqual(before);
  });

  it('keeps the numbers of the list where that is asked for, and each stands once', () => {
    const { must, refuses } = openHall();
    const numbered = (lot_no: string) => ({ ...raccoon, lot_no });
    const keep = (...rows: readonly object[]) => ({ ...list(...rows), keepNumbers: true });
    expect(must('lots.add', keep(numbered('7'), numbered(''), numbered('12A')))).toMatchObject({
      lots: ['7', '8', '12A'],
    });
    refuses('lots.add', keep(numbered('30'), numbered('30')), { code: 'taken', field: 'rows.1.lot_no' });
    refuses('lots.add', keep(numbered('7')), { code: 'taken', field: 'rows.0.lot_no' });
    refuses('lots.add', keep(numbered('twelve')), { code: 'malformed', field: 'rows.0.lot_no' });
    expect(must('lots.add', list(numbered('7')))).toMatchObject({ lots: ['13'] });
  });

  it.each([
    [{ rows: [] }, 'malformed', 'rows'],
    [{ rows: [{ ...raccoon, price: '1' }] }, 'malformed', 'price'],
    [{ saleId: 9, rows: [raccoon] }, 'unknown', 'saleId'],
    [{ sellerNo: 9, rows: [raccoon] }, 'unknown', 'sellerNo'],
  ] as const)('refuses %j', (over, code, field) => {
    const answer = openHall().give('lots.add', { ...list(), ...over });
    expect(answer).toMatchObject({ ok: false, code });
    expect(JSON.stringify(answer)).toContain(field);
  });
});

const look = ({ book }: Hall, text: string, keepNumbers = false) =>
  lotListView(book, { saleId: 1, sellerNo: 1, text, keepNumbers, at: AT });

describe('a list before it is taken in', () => {
  it('shows each problem at its line and column, and leaves the book as it is', () => {
    const hall = openHall();
    const before = rowsOf(hall.book);
    const text = 'goods\tcount\tcolour\tminimum\nraccoon\t3\tpale\t8.00\n\nraccoon\tmany\t\t8,00\t\textra\nfox\t2\n';
    const view = look(hall, text);
    expect(view.columns).toEqual(['goods', 'count', 'minimum']);
    expect(view.problems.map(({ line, column }) => [line, column])).toEqual([
      [1, null],
      [4, null],
      [4, 'count'],
      [4, 'minimum'],
      [5, 'goods'],
    ]);
    expect(view.rows[1]?.cells).toEqual({ goods: 'raccoon', count: 'many', minimum: '8,00' });
    expect(rowsOf(hall.book)).toEqual(before);
  });

  it('says which numbers the lots would have, and keeps nothing of it', () => {
    const hall = openHall();
    const before = rowsOf(hall.book);
    const view = look(hall, 'raccoon,piece,3\nbobcat,,2,,L,I\n');
    expect(view).toMatchObject({ problems: [], refused: '', lots: ['1', '2'], onHold: ['2'] });
    expect(rowsOf(hall.book)).toEqual(before);
  });

  it('says what holds for the whole list once', () => {
    const closed = openHall({ stage: 'settling' });
    expect(look(closed, 'raccoon,piece,3\n')).toMatchObject({ problems: [], refused: expect.stringMatching(/settl/) });
    expect(look(openHall(), ' \n ').refused).toMatch(/^There is no row here yet/);
  });
});

describe('a list as the exchange folder has it', () => {
  it('gives back, seller by seller, the lots of a whole sale', () => {
    const files = filesIn(caseFolder('sixty-lots'));
    const headOf = (name: string) => `${files[name]?.split('\n')[0]}\n`;
    const empty = ['lots.csv', 'tags.csv', 'results.csv'].map((name) => [name, headOf(name)] as const);
    const folder = { ...files, ...Object.fromEntries(empty) };
    withBook((book) => {
      importFiles(book, folder as Record<string, string>);
      const hall = hallOf(book, 1);
      for (const stage of ['intake', 'selling']) hall.give('sale.stage', { saleId: 1, stage, reason: 'late lots' });
      const [heading, ...lines] = (files['lots.csv'] ?? '').trim().split('\n');
      const sellers = new Set(readRows('sixty-lots', 'lots.csv').map((row) => row.seller_no ?? ''));
      for (const seller of sellers) {
        const own = lines.filter((line) => line.split(',')[1] === seller);
        const asked = { saleId: 1, sellerNo: Number.parseInt(seller, 10), keepNumbers: true, at: AT };
        const { problems, rows } = lotListView(book, { ...asked, text: [heading, ...own].join('\n') });
        expect(problems).toEqual([]);
        hall.must('lots.add', {
          saleId: 1,
          sellerNo: asked.sellerNo,
          keepNumbers: true,
          rows: rows.map(({ cells }) => cells),
        });
      }
      expect(exportFiles(book, 1)['lots.csv']?.replaceAll('\r\n', '\n')).toBe(
        files['lots.csv']?.replaceAll('\r\n', '\n'),
      );
    });
  });
});
