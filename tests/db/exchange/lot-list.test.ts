import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvText } from '#db/exchange/csv.ts';
import { LIST_COLUMNS, readLotList } from '#db/exchange/lot-list.ts';

const cellsOf = (text: string) => readLotList(text).rows.map(({ cells }) => cells);

describe('a list of lots', () => {
  it('has a heading in any order and case, or the order of the file, or begins with the goods', () => {
    const pieces = { goods: 'raccoon', count: '3' };
    expect(cellsOf('Count,GOODS\n3,raccoon\n')).toEqual([pieces]);
    expect(cellsOf('Pieces\tGoods\n3\traccoon\n')).toEqual([pieces]);
    expect(cellsOf('Export tags\tGoods\n101-103\tbobcat\n')).toEqual([{ tags: '101-103', goods: 'bobcat' }]);
    expect(cellsOf('raccoon,piece,3\n')[0]).toMatchObject({ ...pieces, by: 'piece' });
    expect(cellsOf('12A,1,raccoon,piece,3\n')[0]).toMatchObject({ ...pieces, lot_no: '12A', seller_no: '1' });
    expect(cellsOf('\t\traccoon\tpiece\t3\n')[0]).toMatchObject({ ...pieces, lot_no: '', seller_no: '' });
  });

  it('counts its lines as they stand, and passes over those without a word', () => {
    expect(readLotList('goods,count\r\n\r\nraccoon,3\r\n , \r\nmink,4').rows.map(({ line }) => line)).toEqual([3, 5]);
  });

  it('takes inches between tabs as they are, and says where quotation marks do not close', () => {
    expect(cellsOf('goods\tcount\tsize\nraccoon\t3\t24" long\n')).toEqual([
      { goods: 'raccoon', count: '3', size: '24" long' },
    ]);
    expect(readLotList('goods,count\nraccoon,"3\n').problems).toMatchObject([{ line: 2, column: null }]);
  });

  it('names a column that it does not know, one that is there twice, and the goods where they are missing', () => {
    const messages = (text: string) => readLotList(text).problems.map(({ message }) => message);
    expect(messages('goods,count,price\nraccoon,3,1\n')).toEqual([
      expect.stringMatching(/“price”: the columns are lot_no, .*, tags\.$/),
    ]);
    expect(messages('goods,count,count\nraccoon,3,3\n')).toEqual(['The column count is there twice: take one out.']);
    expect(messages('size,count\nL,3\n')).toEqual(['The list has no column “goods”: add it.']);
  });

  it('reads back whatever the exchange folder writes, between commas', () => {
    const cell = fc
      .oneof(fc.string({ maxLength: 6 }), fc.constantFrom('a,b', '"x"', 'a\nb', ''))
      .map((text) => text.replace(/[\r\t]/g, '').trim());
    const row = fc.array(cell, { minLength: LIST_COLUMNS.length, maxLength: LIST_COLUMNS.length });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 5 }), (rows) => {
        const read = cellsOf(csvText(LIST_COLUMNS, rows));
        const filled = rows.filter((cells) => cells.some((text) => text !== ''));
        expect(read).toEqual(
          filled.map((cells) => Object.fromEntries(LIST_COLUMNS.map((name, at) => [name, cells[at]]))),
        );
      }),
      { numRuns: 60 },
    );
  });
});
