import { describe, expect, it } from 'vitest';
import { bySale, cachedRead } from '#app/server/read-cache.ts';
import { rehearse } from '#db/book/door.ts';
import { openBook } from '#db/book/open.ts';
import { howManyLots } from '#db/lot/papers.ts';
import { AT, openHall } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

const A_LOT = { sellerNo: 1, goods: 'raccoon', count: '3' };

function counted() {
  const asked: number[] = [];
  const read = cachedRead((book, { id }: { readonly id: number }) => {
    asked.push(id);
    return howManyLots(book, id);
  }, bySale);
  return { asked, read };
}

describe('a cached read', () => {
  it('is worked out once for a log entry and each key, and anew as soon as the log has grown', () => {
    const { book, must, saleId } = openHall();
    const { asked, read } = counted();
    expect([read(book, { id: saleId }), read(book, { id: saleId }), read(book, { id: 99 })]).toEqual([0, 0, 0]);
    expect(asked).toEqual([saleId, 99]);
    must('lot.add', { saleId, ...A_LOT });
    expect(read(book, { id: saleId })).toBe(1);
    book.close();
  });

  it('keeps nothing of one book for another, and one read knows nothing of another', () => {
    const [one, other] = [openHall(), openHall()];
    const [first, second] = [counted(), counted()];
    one.must('lot.add', { saleId: one.saleId, ...A_LOT });
    other.must('lot.add', { saleId: other.saleId, ...A_LOT });
    other.must('lot.add', { saleId: other.saleId, ...A_LOT });
    expect([first.read(one.book, { id: 1 }), first.read(other.book, { id: 1 })]).toEqual([1, 2]);
    second.read(one.book, { id: 1 });
    expect([first.asked, second.asked]).toEqual([[1, 1], [1]]);
    one.book.close();
    other.book.close();
  });

  it('sees what another connection has written', () => {
    const file = tempFile('cached.book');
    const { book, must, saleId } = openHall({ file });
    const reader = openBook(file);
    const { read } = counted();
    expect(read(reader, { id: saleId })).toBe(0);
    must('lot.add', { saleId, ...A_LOT });
    expect(read(reader, { id: saleId })).toBe(1);
    reader.close();
    book.close();
  });

  it('is refused inside a transaction, also in a rehearsal', () => {
    const { book, saleId } = openHall();
    const { read, asked } = counted();
    const inside = () => book.sqlite.transaction(() => read(book, { id: saleId }))();
    expect(inside).toThrow('inside a transaction');
    const entry = {
      command: 'lot.add',
      input: { saleId, ...A_LOT },
      worker: 'Ada',
      station: 'intake',
      at: AT,
    } as const;
    expect(() => rehearse(book, entry, () => read(book, { id: saleId }))).toThrow('inside a transaction');
    expect(asked).toEqual([]);
    book.close();
  });
});
