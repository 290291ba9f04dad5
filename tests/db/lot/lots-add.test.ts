import { describe, expect, it } from 'vitest';
import { logHead } from '#db/book/log.ts';
import { lotListView } from '#db/lot/list.ts';
import type { Refusal } from '#lib/result/result.ts';
import { readRows } from '#tests/support/case-folder.ts';
import { caseFolder, exportFiles, filesIn, importFiles, withBook } from '#tests/support/exchange.ts';
import { AT, bobcatTag, GOODS, type Hall, hallOf, openHall, rowsOf, SALE } from '#tests/support/hall.ts';

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

const HEAD = 'US-CITES WY BOB 2025';

describe('export tags within a list', () => {
  const tagsOf = ({ book }: Hall) => rowsOf(book).tag?.map((row) => (row as { tag: string }).tag);

  it('are lists and ranges as at the form, and a number alone goes with the tag before it', () => {
    const hall = openHall();
    const text = [
      'goods\tcount\ttags',
      `bobcat\t3\tus-cites wy bob 2025 000101-000102, 000105`,
      'Bobcat\t2\t000106-000107',
      'raccoon\t4\t',
    ].join('\n');
    const view = look(hall, text);
    expect(view).toMatchObject({ problems: [], refused: '', lots: ['1', '2', '3'], onHold: [], holds: [] });
    expect(view.rows[1]?.cells.tags).toBe(`${HEAD} 000106-000107`);
    expect(tagsOf(hall)).toEqual([]);
    hall.must('lots.add', list(...view.rows.map(({ cells }) => cells)));
    const serials = ['000101', '000102', '000105', '000106', '000107'];
    expect(tagsOf(hall)).toEqual(serials.map((serial) => `${HEAD} ${serial}`));
  });

  it('stand behind the note where the list has no heading', () => {
    const [row] = look(openHall(), `bobcat,piece,1,,L,I,,,,,${HEAD} 000101\n`).rows;
    expect(row?.cells).toMatchObject({ note: '', tags: `${HEAD} 000101` });
  });

  it('that are wrong are each said at their cell, and nothing of the list is taken in', () => {
    const hall = openHall();
    hall.must('lot.add', { saleId: 1, sellerNo: 1, goods: 'bobcat', count: '1', tags: [bobcatTag(101)] });
    const before = rowsOf(hall.book);
    const rows = [
      ['bobcat', '3', `${HEAD} 000101, 000102, 000102, 000102`],
      ['bobcat', '1', 'BOB-7'],
      ['raccoon', '2', `${HEAD} 000110`],
      ['bobcat', '2', '000118-000101'],
      ['bobcat', '2', '000120-000121'],
      ['bobcat', '1', '000121'],
    ];
    const view = look(hall, ['goods,count,tags', ...rows.map((row) => row.map((one) => `"${one}"`).join())].join('\n'));
    expect(view.problems.map(({ line, column, message }) => [line, column, message.split(/[:;]/)[0]])).toEqual([
      [2, 'tags', `Tag ${HEAD} 000101 is already on lot 1 (seller number 1)`],
      [2, 'tags', `Tag ${HEAD} 000102 is entered twice`],
      [3, 'tags', 'Begin with US-CITES, as on the tag'],
      [4, 'tags', 'Raccoon takes no export tag'],
      [5, 'tags', 'Enter the lower number first'],
      [7, 'tags', `${HEAD} 000121`],
    ]);
    const answer = hall.give('lots.add', list(...view.rows.map(({ cells }) => cells)));
    expect(answer.ok ? [] : [answer, ...(answer.also ?? [])].at(-1)).toMatchObject({
      ...{
        code: 'taken',
        field: 'rows.5.tags',
        message: `${HEAD} 000121: also in a row above. Enter the number on each piece once.`,
      },
    });
    expect(rowsOf(hall.book)).toEqual(before);
  });

  it('that are read but not right hold the lot, and the list says why before it is taken in', () => {
    const hall = openHall();
    const view = look(
      hall,
      `goods,count,tags\nbobcat,3,${HEAD} 000101\nbobcat,1,US-CITES MT BOB 2025 000102\nbobcat,2,\n`,
    );
    expect(view).toMatchObject({ problems: [], onHold: ['1', '2', '3'] });
    expect(view.holds).toEqual([
      { line: 2, column: 'tags', message: expect.stringMatching(/^Lot 1 has 3 pieces and 1 good export tag/) },
      { line: 3, column: 'tags', message: expect.stringMatching(/^Lot 2 may bear tags of WY, but/) },
    ]);
  });

  it('come back with their pieces, as at the form', () => {
    const hall = openHall();
    hall.must('lot.add', { saleId: 1, sellerNo: 1, goods: 'bobcat', count: '1', tags: [bobcatTag(101)] });
    hall.must('outcome.record', { saleId: 1, lotNo: '1', kind: 'passed', answered: [] });
    const sale = { ...SALE, name: 'Next sale', held_on: '2027-02-27', season: '2026-27' };
    const next = hall.must('sale.plan', { sale, goods: GOODS }).saleId;
    hall.must('sale.stage', { saleId: next, stage: 'intake', reason: '' });
    hall.must('seller.register', { saleId: next, sellerNo: 1, partners: [{ personId: 1 }] });
    const rows = [{ goods: 'bobcat', count: '1', tags: bobcatTag(101).tag }];
    expect(hall.must('lots.add', { saleId: next, sellerNo: 1, rows })).toEqual({ lots: ['1'], onHold: [] });
    expect(rowsOf(hall.book).tag).toMatchObject([{ live: 0 }, { live: 1, came_back_from_id: 1 }]);
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
      for (const stage of ['intake', 'selling'] as const)
        hall.give('sale.stage', { saleId: 1, stage, reason: 'late lots' });
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
