import { describe, expect, it } from 'vitest';
import { openBookInMemory } from '#db/book/open.ts';
import { buyerFile, buyerFiles } from '#db/buyer/files.ts';
import { newestHandovers } from '#db/buyer/handover.ts';
import type { CommandName, InputOf } from '#db/commands.ts';
import { importFolder } from '#db/exchange/import-folder.ts';
import { purchaseRecord } from '#lib/buyer/purchase-record.ts';
import { invoicePaper } from '#lib/invoice/paper.ts';
import { bigFolder } from '#tests/support/big-folder.ts';
import { accepted, giveTo } from '#tests/support/hall.ts';

/** A sale of which lots were called, corrected, reopened, paid for and carried away. */
function busySale() {
  const book = openBookInMemory();
  const size = { lots: 120, called: 110, sellers: 9, buyers: 7 };
  importFolder(book, bigFolder(size), { worker: 'Ada', at: '2026-02-28T10:00:00Z' });
  const must = <N extends CommandName>(command: N, input: InputOf<N>) => accepted(giveTo(book, command, { input }));
  const corrected = { replacesId: 7, reason: 'misheard', kind: 'sold', price: '9.25', buyerNo: 5 } as const;
  must('outcome.correct', { lotId: 7, ...corrected });
  must('outcome.reopen', { lotId: 8, replacesId: 8, reason: 'bid while it fell' });
  for (const buyerNo of [1, 2]) {
    const paid = { saleId: 1, buyerNo, method: 'cash' } as const;
    must('payment.record', { ...paid, direction: 'in', amount: '90000.00', answered: ['more_than_owed'] });
    must('payment.record', { ...paid, direction: 'out', amount: '1.00' });
  }
  must('handover.record', { saleId: 1, buyerNo: 2, lots: ['10'], pieces: '11', takenBy: 'Dot' });
  return book;
}

describe('the file of one buyer number', () => {
  it('makes the papers that the files of the whole sale make, though it reads less', () => {
    const book = busySale();
    const stamp = { number: 1, issuedOn: '2026-02-28', head: { seq: 1, hash: 'a' } };
    const files = buyerFiles(book, 1);
    expect(files).toHaveLength(7);
    for (const file of files) {
      const own = buyerFile(book, 1, file.buyer.buyerNo);
      if (!own) throw new Error('no file');
      expect(own.lots.length).toBeGreaterThan(5);
      expect({ ...own, sellers: [], people: [] }).toEqual({ ...file, sellers: [], people: [] });
      expect(invoicePaper(own, stamp)).toEqual(invoicePaper(file, stamp));
      expect(purchaseRecord(own, '2026-02-28')).toEqual(purchaseRecord(file, '2026-02-28'));
    }
    expect(buyerFile(book, 1, 8)).toBeUndefined();
    book.close();
  });

  it('has the lots that were handed over to it, and no others', () => {
    const book = busySale();
    const all = newestHandovers(book, 1);
    expect([...all.keys()]).toEqual(['10']);
    expect(newestHandovers(book, 1, { buyerNo: 2 })).toEqual(all);
    expect(newestHandovers(book, 1, { buyerNo: 1 }).size).toBe(0);
    book.close();
  });
});
