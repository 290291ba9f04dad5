import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { rehearse } from '#db/door.ts';
import { openBook } from '#db/open.ts';
import { lookNow, NOTES, NOTHING, touchedSince } from '#db/touched.ts';
import { AT, openHall } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

describe('what was touched', () => {
  it('is the lot, the seller number and the buyer that an entry has to do with', () => {
    const { book, must, saleId } = openHall();
    const looked = lookNow(book);
    expect(touchedSince(book, looked)?.lot.size).toBe(0);
    const { lotId } = must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
    const added = lookNow(book);
    expect(touchedSince(book, looked)).toMatchObject({ lot: new Set([lotId]), seller: new Set([1]), buyer: new Set() });
    must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
    must('payment.record', { saleId, direction: 'in', buyerNo: 10, method: 'cash', amount: '5.00' });
    expect(touchedSince(book, added)).toMatchObject({
      called: new Set([lotId]),
      seller: new Set(),
      buyer: new Set([1]),
    });
    book.close();
  });

  it('is nothing where an entry was refused or only rehearsed', () => {
    const { book, refuses, saleId } = openHall();
    const looked = lookNow(book);
    const input = { saleId, sellerNo: 1, goods: 'raccoon', count: '3' };
    rehearse(book, { command: 'lot.add', input, worker: 'Ada', station: 'intake', at: AT }, () => null);
    refuses('lot.add', { ...input, goods: 'unicorn' }, { code: 'unknown', field: 'goods' });
    expect(touchedSince(book, looked)?.lot.size).toBe(0);
    book.close();
  });

  it('is unknown where another connection has written', () => {
    const file = tempFile('touched.book');
    const { book, must, saleId } = openHall({ file });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
    const looked = lookNow(book);
    const other = new Database(file);
    other.prepare("UPDATE lot SET note = 'elsewhere'").run();
    other.close();
    expect(touchedSince(book, looked)).toBeNull();
    book.close();
    const again = openBook(file);
    expect(touchedSince(again, lookNow(again))?.lot.size).toBe(0);
    again.close();
  });

  it('is said of every table of the book, by columns that it has', () => {
    const { book } = openHall();
    const columns = (table: string) =>
      (book.sqlite.pragma(`table_info("${table}")`) as { readonly name: string }[]).map(({ name }) => name);
    const tables = book.sqlite
      .prepare("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE '\\_\\_%' ESCAPE '\\'")
      .pluck()
      .all();
    expect([...Object.keys(NOTES), ...NOTHING].sort()).toEqual(tables.sort());
    for (const [table, notes] of Object.entries(NOTES)) {
      expect(columns(table)).toEqual(expect.arrayContaining(notes.map(([, column]) => column)));
    }
    book.close();
  });
});
