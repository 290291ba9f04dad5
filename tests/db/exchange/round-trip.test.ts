import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bankEntries } from '#db/bank/queries.ts';
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
  withoutJournal,
} from '#tests/support/exchange.ts';
import { filesOf, randomFolder } from '#tests/support/random-folder.ts';
import { OF_ELEVEN, OF_TEN, paidHall } from '#tests/support/sales.ts';

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

/** The accounts of a journal file and what each comes to. */
function balancesIn(text = ''): Map<string, string> {
  const sums = new Map<string, number>();
  for (const { account = '', debit, credit } of rowsIn(text)) {
    sums.set(account, (sums.get(account) ?? 0) + Math.round(100 * (Number(debit) - Number(credit))));
  }
  const told = [...sums].filter(([, sum]) => sum !== 0).map(([account, sum]): [string, string] => [account, `${sum}`]);
  return new Map(told.sort());
}

describe('a sale with money at the bank', () => {
  const { book, must, saleId } = paidHall();
  const taking = { saleId, note: 'at the door' } as const;
  must('taking.record', { ...taking, kind: 'raffle', method: 'card', amount: '40.00' }, 'till');
  must('taking.record', { ...taking, kind: 'door', method: 'cash', amount: '12.00' }, 'till');
  const bank = (paymentIds: number[], cash: string) => must('bank.deposit', { saleId, paymentIds, cash }, 'payout');
  bank([], '1.00');
  must('deposit.void', { depositId: 1, reason: 'miscounted' }, 'payout');
  bank([OF_TEN], '30.00');
  bank([OF_ELEVEN], '');
  must('check.bounce', { paymentId: OF_ELEVEN, fee: '25.00', reason: 'no funds' }, 'payout');
  const arrived = { saleId, method: 'card', amount: '40.00', arrived: '38.84', answered: ['fee_kept'] } as const;
  must('bank.arrive', { ...arrived, answered: ['fee_kept'] }, 'payout');
  const entryIds = bankEntries(book)
    .filter(({ memo }) => /^Deposit 3|check 501$/.test(memo))
    .map(({ entryId }) => entryId);
  must('bank.clear', { entryIds, day: '2026-02-28' }, 'payout');
  for (const buyerNo of [10, 11]) must('invoice.issue', { saleId, buyerNo });
  const first = exportFiles(book, saleId);

  it('says what was taken, banked, arrived and marked', () => {
    expect(first['takings.csv']).toContain('raffle,card,40.00,at the door,');
    // The first was voided, and all of the last came back.
    expect(rowsIn(first['deposits.csv'] ?? '').map((row) => Object.values(row).join())).toEqual([
      '1,2026-02-28,30.00,2026-02-28',
    ]);
    expect(first['arrivals.csv']).toContain('card,2026-02-28,40.00,1.16');
    expect(
      rowsIn(first['payments.csv'] ?? '').map(({ deposit, on_statement }) => `${deposit} ${on_statement}`),
    ).toEqual([...[' ', '1 ', ' 2026-02-28', ' ', ' ']]);
  });

  it('comes out of another book to the byte, with the same sum on every account of the journal', () => {
    const second = exportedFrom(first);
    expect(withoutJournal(second)).toEqual(withoutJournal(first));
    const balances = balancesIn(first['journal.csv']);
    expect(balances.get('Expenses:Card fees')).toBe('116');
    expect(balancesIn(second['journal.csv'])).toEqual(balances);
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
