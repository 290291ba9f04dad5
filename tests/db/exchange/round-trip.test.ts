import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { replayLog } from '#db/book/replay.ts';
import { log } from '#db/schema/index.ts';
import {
  CSV_FILES,
  caseFolder,
  cellsIn,
  exportFiles,
  filesIn,
  importFiles,
  rowsIn,
  untidyFilesOf,
  withBook,
} from '#tests/support/exchange.ts';
import { filesOf, randomFolder } from '#tests/support/random-folder.ts';

const RUNS = { numRuns: 30 };

function exportedFrom(files: Readonly<Record<string, string>>): Record<string, string> {
  return withBook((book) => exportFiles(book, importFiles(book, files).saleId));
}

describe('a folder that goes in and comes out again', () => {
  it('is the same to the byte where it was tidy', () => {
    fc.assert(
      fc.property(fc.nat(), fc.integer({ min: 0, max: 40 }), (seed, lots) => {
        const files = filesOf(randomFolder(seed, { lots }));
        expect(exportedFrom(files)).toMatchObject(files);
      }),
      RUNS,
    );
  });

  it('has the same rows with other line ends, a byte-order mark, and columns and rows in another order', () => {
    fc.assert(
      fc.property(fc.nat(), fc.integer({ min: 0, max: 30 }), (seed, lots) => {
        const folder = randomFolder(seed, { lots });
        const files = exportedFrom(untidyFilesOf(seed, folder));
        expect(files).toMatchObject(filesOf(folder));
      }),
      RUNS,
    );
  });

  it('gives the same folder, and the same sums, from a book that was made from it', () => {
    fc.assert(
      fc.property(fc.nat(), (seed) => {
        const first = exportedFrom(untidyFilesOf(seed, randomFolder(seed, { lots: 25 })));
        expect(exportedFrom(first)).toEqual(first);
      }),
      RUNS,
    );
  });

  it('stands in the log with all that a replay needs', () => {
    fc.assert(
      fc.property(fc.nat(), (seed) => {
        const files = untidyFilesOf(seed, randomFolder(seed, { lots: 20 }));
        withBook((book) => {
          const { saleId } = importFiles(book, files);
          const replayed = replayLog(book.db.select().from(log).all());
          expect(replayed.difference).toBeNull();
          expect(exportFiles(replayed.book, saleId)).toEqual(exportFiles(book, saleId));
          replayed.book.close();
        });
      }),
      { numRuns: 15 },
    );
  });
});

describe.each(['by-hand', 'sixty-lots'])('the worked sale %s', (name) => {
  const files = filesIn(caseFolder(name));
  const out = exportedFrom(files);

  it('comes out with the rows that went in', () => {
    for (const file of CSV_FILES) expect(rowsIn(out[file] ?? '')).toEqual(rowsIn(files[file] ?? ''));
    expect(JSON.parse(out['sale.json'] ?? '')).toEqual(JSON.parse(files['sale.json'] ?? ''));
  });

  it('comes out with the tables that were worked apart from this program', () => {
    const expected = filesIn(`${caseFolder(name)}/expected`);
    expect(Object.keys(expected)).toHaveLength(5);
    for (const [file, text] of Object.entries(expected)) expect(cellsIn(out[file] ?? '')).toEqual(cellsIn(text));
  });
});
