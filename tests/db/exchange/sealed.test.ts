import { describe, expect, it } from 'vitest';
import { submit } from '#db/book/door.ts';
import { saleById } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { writtenView } from '#db/outcome/written-view.ts';
import { saleFacts } from '#db/sale/facts.ts';
import {
  caseFolder,
  exportFiles,
  filesIn,
  IMPORTER,
  importFiles,
  problemsIn,
  withBook,
  withoutJournal,
} from '#tests/support/exchange.ts';

const RIGHT = filesIn(caseFolder('by-hand'));
const BIDS = 'lot_no,buyer_no,price,received_at\r\n';
const RESULTS = 'lot_no,outcome,price,buyer_no\r\n';

/** The worked sale by written bids, with these bids and results. */
function sealed(bids: readonly string[], results: readonly string[] = []) {
  return {
    ...RIGHT,
    'sale.json': (RIGHT['sale.json'] ?? '').replace('"floor"', '"sealed"'),
    'bids.csv': BIDS + bids.map((row) => `${row}\r\n`).join(''),
    'results.csv': RESULTS + results.map((row) => `${row}\r\n`).join(''),
  };
}

const outcomes = (book: Book) =>
  saleFacts(book, 1).outcomes.map(({ lotNo, kind, priceCents, buyerNo }) => [lotNo, kind, priceCents, buyerNo]);

describe('a sealed sale', () => {
  it('goes to the highest bid, a tie to the earlier row, and waits below the minimum', () => {
    withBook((book) => {
      const bids = ['2,10,7.00,', '2,11,8.00,', '2,10,8.00,2026-02-01', '5,10,59.99,', '6,11,12.50,', '4,10,3.00,'];
      const done = importFiles(book, sealed(bids, ['7,passed,,', '4,sold,2.50,11']));
      expect(done).toMatchObject({ awarded: 2, stage: 'selling' });
      expect(outcomes(book)).toEqual([
        ['2', 'sold', 800, 11],
        ['4', 'sold', 250, 11],
        ['6', 'sold', 1250, 11],
        ['7', 'passed', null, null],
      ]);
    });
  });

  it('leaves a lot on hold where it is', () => {
    withBook((book) => {
      const files = { ...sealed(['1,10,150.00,', '3,10,1.00,']), 'tags.csv': 'lot_no,tag\r\n' };
      expect(importFiles(book, files)).toMatchObject({ awarded: 1, onHold: 1 });
      expect(outcomes(book)).toEqual([['3', 'sold', 100, 10]]);
    });
  });

  it('is settled when every lot has its outcome', () => {
    withBook((book) => {
      const bids = [1, 2, 3, 4, 5, 6, 7].map((no) => `${no},10,150.00,`);
      expect(importFiles(book, sealed(bids)).stage).toBe('settling');
    });
  });

  it('comes out without what follows from its bids, and with what does not any more', () => {
    withBook((book) => {
      const files = sealed(['2,10,7.00,', '3,11,8.00,'], ['7,passed,,']);
      const { saleId } = importFiles(book, files);
      expect(exportFiles(book, saleId)).toMatchObject({
        'bids.csv': files['bids.csv'],
        'results.csv': files['results.csv'],
      });
      const input = {
        lotId: 2,
        replacesId: 2,
        kind: 'sold',
        price: '7.00',
        buyerNo: 11,
        reason: 'the card was misread',
      } as const;
      const answered = ['seller_buys', 'buyer_not_cleared', 'below_minimum', 'off_step', 'price_unusual'] as const;
      const given = { ...IMPORTER, command: 'outcome.correct', station: 'block', key: 'correct-1' } as const;
      expect(submit(book, { ...given, input: { ...input, answered } })).toMatchObject({ ok: true });
      expect(exportFiles(book, saleId)['results.csv']).toBe(`${RESULTS}2,sold,7.00,11\r\n7,passed,,\r\n`);
    });
  });

  it('takes written bids as bids left with the clerk where the lots are called', () => {
    withBook((book) => {
      const files = { ...sealed(['2,10,7.00,']), 'sale.json': RIGHT['sale.json'] ?? '' };
      expect(importFiles(book, files)).toMatchObject({ awarded: 0, stage: 'intake' });
      expect(exportFiles(book, 1)['bids.csv']).toBe(files['bids.csv']);
    });
  });

  it('keeps every bid with why it counts no more, and no under-bid, over an import and back', () => {
    withBook((book) => {
      const { saleId } = importFiles(book, sealed(['2,10,0.01,', '5,10,1.00,', '5,11,2.00,', '5,10,0.50,']));
      const given = { ...IMPORTER, station: 'block', worker: 'clerk' } as const;
      const input = { saleId, lotNo: '5', buyerNo: 11, kind: 'under', price: '3.00' } as const;
      expect(submit(book, { ...given, command: 'bid.leave', key: 'under-bid', input })).toMatchObject({ ok: true });
      const retract = { bidId: 4, reason: 'misread' };
      expect(submit(book, { ...given, command: 'bid.retract', key: 'retract-1', input: retract })).toMatchObject({
        ok: true,
      });
      const files = exportFiles(book, saleId);
      expect(files['bids.csv']).toBe(
        `lot_no,buyer_no,price,received_at,ended\r\n2,10,0.01,,\r\n5,10,1.00,,retracted\r\n5,11,2.00,,\r\n5,10,0.50,,retracted\r\n`,
      );
      withBook((other) => {
        const back = exportFiles(other, importFiles(other, files).saleId);
        expect(withoutJournal(back)).toEqual(withoutJournal(files));
      });
    });
  });

  const LATE = 'lot_no,buyer_no,price,received_at,ended\r\n5,10,61.00,2026-02-01T10:00:00Z,\r\n';
  const lateFolder = (row: string, over = {}) => ({ ...sealed([]), 'bids.csv': `${LATE}${row}\r\n`, ...over });

  it('keeps a late bid, which takes no lot, whatever it was, and is late on the slip again', () => {
    withBook((book) => {
      const files = lateFolder('5,11,99.00,2026-02-01T12:00:00Z,late');
      const { saleId } = importFiles(book, files);
      expect(outcomes(book)).toEqual([['5', 'sold', 6100, 10]]);
      expect(exportFiles(book, saleId)['bids.csv']).toBe(files['bids.csv']);
      const sale = saleById(book, saleId);
      expect(sale && writtenView(book, sale, '2026-02-01T11:00:00Z').ended).toMatchObject([
        { buyerNo: 10, end: 'won' },
        { buyerNo: 11, end: 'late' },
      ]);
    });
  });

  it('refuses a late bid without its time, or from before one that counts, or at a called sale', () => {
    const faults = (files: Record<string, string>) => problemsIn(files).join();
    expect(faults(lateFolder('5,11,99.00,,late'))).toContain('Enter in received_at when this late bid was handed in.');
    expect(faults(lateFolder('5,11,99.00,2026-02-01T10:00:00Z,late'))).toContain('Correct received_at');
    const floor = { 'sale.json': RIGHT['sale.json'] ?? '' };
    expect(faults(lateFolder('5,11,99.00,2026-02-01T12:00:00Z,late', floor))).toContain('only written bids come late');
  });
});
