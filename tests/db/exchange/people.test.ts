import { describe, expect, it } from 'vitest';
import { submit } from '#db/book/door.ts';
import type { Book } from '#db/book/open.ts';
import { particulars, person } from '#db/schema/index.ts';
import {
  caseFolder,
  columnsOf,
  csvOf,
  exportFiles,
  type FolderRow,
  filesIn,
  IMPORTER,
  importFiles,
  rowsIn,
  withBook,
} from '#tests/support/exchange.ts';

const RIGHT = filesIn(caseFolder('by-hand'));

/** A sale with these people, of whom the first sells. */
function saleOf(heldOn: string, people: readonly FolderRow[]) {
  const sale = { ...JSON.parse(RIGHT['sale.json'] ?? ''), held_on: heldOn };
  return {
    ...{
      'sale.json': JSON.stringify(sale),
      'goods.csv': RIGHT['goods.csv'] ?? '',
      'lots.csv': 'lot_no,seller_no,goods,by\n',
    },
    'people.csv': csvOf(columnsOf('people.csv'), people),
    'sellers.csv': `seller_no,person_id,parts\n1,${people[0]?.person_id},1\n`,
  };
}

const WREN = { person_id: 'P1', name: 'Wren Tamarack', member_no: 'M1', street: '1 Mill Road' };

function people(book: Book) {
  return book.db
    .select({ ref: person.ref, name: person.name, street: person.street })
    .from(person)
    .orderBy(person.id)
    .all();
}

describe('the people of a folder', () => {
  it('leave room at their sale for somebody whose id in the book is the same', () => {
    withBook((book) => {
      importFiles(book, saleOf('2025-02-28', [WREN]));
      const { saleId } = importFiles(book, saleOf('2026-02-28', [{ person_id: 'P1', name: 'Hollis Quill' }]));
      const given = { ...IMPORTER, command: 'buyer.register', station: 'till', key: 'register-1' } as const;
      expect(submit(book, { ...given, input: { saleId, personId: 1 } })).toMatchObject({ ok: true });
      const out = exportFiles(book, saleId);
      expect(rowsIn(out['people.csv'] ?? '').map((row) => [row.person_id, row.name])).toEqual([
        ['P1', 'Hollis Quill'],
        ['P1-2', 'Wren Tamarack'],
      ]);
      expect(rowsIn(out['buyers.csv'] ?? '')).toMatchObject([{ person_id: 'P1-2' }]);
    });
  });

  it('are known again by id and name, whatever the spelling', () => {
    withBook((book) => {
      importFiles(book, saleOf('2025-02-28', [{ ...WREN, name: '\u0141ucja \u017bak' }]));
      importFiles(book, saleOf('2026-02-28', [{ ...WREN, name: 'LUCJA  ZAK', member_no: '' }]));
      expect(people(book)).toEqual([{ ref: 'P1', name: 'LUCJA  ZAK', street: '1 Mill Road' }]);
    });
  });

  it('are known again by member number and name under another id, which each sale keeps', () => {
    withBook((book) => {
      importFiles(book, saleOf('2025-02-28', [WREN]));
      const { saleId } = importFiles(book, saleOf('2026-02-28', [{ ...WREN, person_id: 'A-17' }]));
      expect(people(book)).toHaveLength(1);
      expect(book.db.select({ ref: particulars.ref }).from(particulars).all()).toEqual([
        { ref: 'P1' },
        { ref: 'A-17' },
      ]);
      expect(rowsIn(exportFiles(book, saleId)['sellers.csv'] ?? '')).toEqual([
        { seller_no: '1', person_id: 'A-17', parts: '1' },
      ]);
    });
  });

  it('are somebody else under the same id with another name, or with no number to tell them by', () => {
    withBook((book) => {
      importFiles(book, saleOf('2025-02-28', [WREN]));
      importFiles(
        book,
        saleOf('2026-02-28', [
          { ...WREN, name: 'Hollis Quill' },
          { ...WREN, person_id: 'P7', member_no: '' },
        ]),
      );
      expect(people(book).map(({ ref, name }) => [ref, name])).toEqual([
        ['P1', 'Wren Tamarack'],
        ['P7', 'Wren Tamarack'],
        ['P0003', 'Hollis Quill'],
      ]);
    });
  });

  it('have a payee in a column that stands only where somebody has one', () => {
    const payee = 'Dana Cole, guardian of Wren Tamarack';
    withBook((book) => {
      const without = importFiles(book, saleOf('2025-02-28', [WREN]));
      const plain = exportFiles(book, without.saleId)['people.csv'] ?? '';
      expect(plain.split('\r\n')[0]).toMatch(/,licence_expires$/);
      const rows = [
        { ...WREN, payee },
        { person_id: 'P2', name: 'Ivo Jay' },
      ];
      const people = csvOf([...columnsOf('people.csv'), 'payee'], rows);
      const { saleId } = importFiles(book, { ...saleOf('2026-02-28', rows), 'people.csv': people });
      const out = exportFiles(book, saleId)['people.csv'] ?? '';
      expect(out.split('\r\n')[0]).toMatch(/,licence_expires,payee$/);
      expect(rowsIn(out).map((row) => row.payee)).toEqual([payee, '']);
      // What was shown at the earlier sale stays as it was, byte for byte.
      expect(exportFiles(book, without.saleId)['people.csv']).toBe(plain);
    });
  });

  it('are never two rows of a folder at once: the id goes before the member number', () => {
    withBook((book) => {
      importFiles(book, saleOf('2025-02-28', [WREN]));
      importFiles(book, saleOf('2026-02-28', [{ ...WREN, person_id: 'P9', street: 'double' }, WREN]));
      expect(people(book)).toEqual([
        { ref: 'P1', name: 'Wren Tamarack', street: '1 Mill Road' },
        { ref: 'P9', name: 'Wren Tamarack', street: 'double' },
      ]);
    });
  });

  it('keep an id that a later row brings, when one is drawn for an earlier row', () => {
    withBook((book) => {
      importFiles(book, saleOf('2025-02-28', [WREN]));
      const rows = [
        { person_id: 'P1', name: 'Hollis Quill' },
        { person_id: 'P0002', name: 'Ruth Okafor' },
        { person_id: 'P0003', name: 'Odd N\u00e6ss' },
      ];
      const { saleId } = importFiles(book, saleOf('2026-02-28', rows));
      expect(people(book).map(({ ref, name }) => [ref, name])).toEqual([
        ['P1', 'Wren Tamarack'],
        ['P0002', 'Ruth Okafor'],
        ['P0003', 'Odd N\u00e6ss'],
        ['P0004', 'Hollis Quill'],
      ]);
      expect(rowsIn(exportFiles(book, saleId)['people.csv'] ?? '')).toMatchObject(rows);
    });
  });

  it('are brought up to date by a newer sale and not by an older one; each sale keeps what was shown there', () => {
    withBook((book) => {
      importFiles(book, saleOf('2025-02-28', [{ ...WREN, street: 'of 2025' }]));
      const old = importFiles(book, saleOf('2024-02-28', [{ ...WREN, street: 'of 2024' }]));
      expect(people(book)[0]?.street).toBe('of 2025');
      importFiles(book, saleOf('2026-02-28', [{ ...WREN, street: 'of 2026' }]));
      expect(people(book)).toEqual([{ ref: 'P1', name: 'Wren Tamarack', street: 'of 2026' }]);
      expect(rowsIn(exportFiles(book, old.saleId)['people.csv'] ?? '')[0]?.street).toBe('of 2024');
    });
  });
});
