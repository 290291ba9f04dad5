import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvRecords, csvText } from '#db/exchange/csv.ts';

describe('the records of a CSV text (RFC 4180)', () => {
  it('begin on the lines a person counts, with either line end', () => {
    for (const newline of ['\n', '\r\n']) {
      const text = ['a,b', '1,2', '"x', 'y",3', '', '', '4,"5"', '6'].join(newline);
      expect(csvRecords(text)).toEqual({
        records: [
          { line: 1, cells: ['a', 'b'] },
          { line: 2, cells: ['1', '2'] },
          { line: 3, cells: [`x${newline}y`, '3'] },
          { line: 7, cells: ['4', '5'] },
          { line: 8, cells: ['6'] },
        ],
        broken: [],
      });
    }
  });

  it('reads line ends of both kinds in one file', () => {
    expect(csvRecords('a\r\nb\nc').records.map(({ line, cells }) => [line, ...cells])).toEqual([
      [1, 'a'],
      [2, 'b'],
      [3, 'c'],
    ]);
  });

  it('goes on behind each broken line', () => {
    const { records, broken } = csvRecords('a,b\n1,x"y\n2,3\n4,"q"z\r\n\n5,6\n7,"open\n8,9\n');
    expect(records.map(({ line }) => line)).toEqual([1, 3, 6, 8]);
    expect(broken).toEqual([
      { line: 2, text: '1,x"y', code: 'INVALID_OPENING_QUOTE' },
      { line: 4, text: '4,"q"z', code: 'CSV_INVALID_CLOSING_QUOTE' },
      { line: 7, text: '7,"open', code: 'CSV_QUOTE_NOT_CLOSED' },
    ]);
  });

  it('gives back every table that was written, with every row on its line', () => {
    const cell = fc.string({
      unit: fc.constantFrom('a', '"', ',', '\n', '\r', ' ', '\u0141', '\ufeff', '=', '\u{1f98a}'),
    });
    const rows = fc.array(
      fc.tuple(cell, cell, fc.constant('z')).map((cells) => [...cells]),
      { minLength: 1, maxLength: 12 },
    );
    fc.assert(
      fc.property(rows, (table) => {
        const { records, broken } = csvRecords(csvText(['p', 'q', 'r'], table));
        expect(broken).toEqual([]);
        expect(records.slice(1).map(({ cells }) => cells)).toEqual(table);
        let line = 2;
        for (const [at, cells] of table.entries()) {
          expect(records[at + 1]?.line).toBe(line);
          line += cells.join('').split('\n').length;
        }
      }),
    );
  });
});
