import { describe, expect, it } from 'vitest';
import type { Book } from '#db/book/open.ts';
import { lot, tag } from '#db/schema/index.ts';
import { changed, exportFiles, importFiles, placesIn, rowsIn, withBook } from '#tests/support/exchange.ts';

/** The worked sale held in another year, with its three tagged bobcats sold, passed or not yet called. */
function year(heldOn: string, lotOne: 'sold' | 'passed' | 'open') {
  const result = { sold: '1,sold,112.75,10\r\n', passed: '1,passed,,\r\n', open: '' }[lotOne];
  return changed('by-hand', [
    ['sale.json', '"held_on": "2026-02-28"', `"held_on" : "${heldOn}"`],
    ...(lotOne === 'sold' ? [] : [['results.csv', '1,sold,112.75,10\r\n', result] as const]),
  ]);
}

const lives = (book: Book) =>
  book.db
    .select({ tag: tag.tag, live: tag.live, lot: tag.lotId, from: tag.cameBackFromId })
    .from(tag)
    .orderBy(tag.id)
    .all();

describe('an export tag over the years', () => {
  it('comes back with a piece that went home', () => {
    withBook((book) => {
      importFiles(book, year('2025-02-28', 'passed'));
      importFiles(book, year('2026-02-28', 'sold'));
      const rows = lives(book);
      expect(rows.map(({ live, from }) => [live, from !== null])).toEqual([
        ...[false, false, false].map((live) => [live, false]),
        ...[true, true, true].map((live) => [live, true]),
      ]);
      expect(rows[3]?.from).toBe(rows[0]?.lot);
    });
  });

  it('does so too when the later year came into the book first', () => {
    withBook((book) => {
      const late = importFiles(book, year('2026-02-28', 'sold'));
      const early = importFiles(book, year('2025-02-28', 'passed'));
      const rows = lives(book);
      expect(rows.map(({ live }) => live)).toEqual([true, true, true, false, false, false]);
      expect(rows[0]?.from).toBe(rows[3]?.lot);
      for (const { saleId } of [late, early]) {
        expect(rowsIn(exportFiles(book, saleId)['tags.csv'] ?? '')).toHaveLength(3);
      }
    });
  });

  it('stands once in the book otherwise: sold, or still to be called', () => {
    for (const [first, second] of [
      ['sold', 'passed'],
      ['open', 'sold'],
      ['sold', 'sold'],
    ] as const) {
      withBook((book) => {
        importFiles(book, year('2025-02-28', first));
        expect(placesIn(year('2026-02-28', second), book)).toEqual([
          'tags.csv:2 tag',
          'tags.csv:3 tag',
          'tags.csv:4 tag',
        ]);
      });
    }
    withBook((book) => {
      importFiles(book, year('2026-02-28', 'sold'));
      expect(placesIn(year('2025-02-28', 'sold'), book)).toHaveLength(3);
    });
  });

  it('is told beside the problems of the folder itself', () => {
    withBook((book) => {
      importFiles(book, year('2025-02-28', 'sold'));
      const files = { ...year('2026-02-28', 'sold') };
      files['lots.csv'] = (files['lots.csv'] ?? '').replace('60.00', '60,00');
      expect(placesIn(files, book)).toEqual(['lots.csv:6 -', 'tags.csv:2 tag', 'tags.csv:3 tag', 'tags.csv:4 tag']);
    });
  });
});

describe('the State of a tag', () => {
  const fromMontana = (changes: readonly (readonly [string, string, string])[]) =>
    changed('by-hand', [
      ...['000101', '000102', '000103'].map((no) => ['tags.csv', `WY BOB 2025 ${no}`, `MT BOB 2025 ${no}`] as const),
      ...changes,
    ]);

  it("may be that of a partner's licence, and the lot says so", () => {
    withBook((book) => {
      const files = fromMontana([['people.csv', 'L2,US-WY', 'L2,US-MT']]);
      importFiles(book, files);
      const taken = book.db.select({ takenIn: lot.takenIn }).from(lot).orderBy(lot.id).all();
      expect(taken.map(({ takenIn }) => takenIn)).toEqual(['US-MT', '', '', '', '', '', '']);
      expect(exportFiles(book, 1)['tags.csv']).toEqual(files['tags.csv']);
    });
  });

  it('is of no licence, or of two: then the lot cannot have been put up', () => {
    expect(placesIn(fromMontana([]))).toEqual(['tags.csv:2 tag', 'tags.csv:3 tag', 'tags.csv:4 tag']);
    const mixed = fromMontana([
      ['people.csv', 'L2,US-WY', 'L2,US-MT'],
      ['tags.csv', 'MT BOB 2025 000103', 'WY BOB 2025 000103'],
    ]);
    expect(placesIn(mixed)).toEqual(['tags.csv:2 tag', 'tags.csv:3 tag']);
  });
});
