import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { goneLot } from '#db/lot/former.ts';
import { lotNo } from '#lib/lot/number.ts';
import { bobcatTag, type Hall, openHall, rowsOf } from '#tests/support/hall.ts';

interface LotColumns {
  readonly id: number;
  readonly lot_number: number;
  readonly lot_letter: string;
  readonly count: number | null;
  readonly minimum_cents: number | null;
  readonly place: number | null;
}

const lots = (hall: Hall) => rowsOf(hall.book).lot as LotColumns[];
const numbers = (hall: Hall) => lots(hall).map(({ lot_number, lot_letter }) => `${lot_number}${lot_letter}`);
const tagsOf = (hall: Hall, lotId: number) =>
  hall.book.sqlite.prepare('SELECT tag FROM tag WHERE lot_id = ? ORDER BY position').pluck().all(lotId);

describe('lot.divide', () => {
  it('makes 12 into 12A and 12B, with all that was said of it', () => {
    const hall = openHall({ stage: 'selling' });
    const { saleId, must } = hall;
    const said = { goods: 'raccoon', count: '400', section: 'north', minimum: '5.00', note: 'two boxes' };
    const { lotId } = must('lot.add', { saleId, sellerNo: 1, lotNo: '12', ...said });
    must('lot.divide', { lotId, parts: [{ count: '350' }, { count: '50' }] });
    expect(numbers(hall)).toEqual(['12A', '12B']);
    expect(rowsOf(hall.book).lot).toMatchObject([
      { id: lotId, count: 350, section: 'north', minimum_cents: 500, note: 'two boxes' },
      { count: 50, section: 'north', minimum_cents: 500, note: 'two boxes' },
    ]);
    must('lot.divide', { lotId, parts: [{ count: '300' }, { count: '50' }] });
    expect(numbers(hall)).toEqual(['12C', '12B', '12D']);
    expect(goneLot(hall.book, saleId, lotNo('12'))?.message).toBe('Lot 12 was divided into 12B, 12C and 12D.');
    expect(goneLot(hall.book, saleId, lotNo('12A'))?.message).toBe('Lot 12A was divided into 12C and 12D.');
    for (const gone of ['12', '12A']) {
      const add = { saleId, sellerNo: 1, lotNo: gone, goods: 'raccoon', count: '1' } as const;
      hall.refuses('lot.add', add, { code: 'taken', field: 'lotNo' });
      const sold = { saleId, lotNo: gone, kind: 'sold', price: '1.00', buyerNo: 10 } as const;
      expect(hall.refuses('outcome.record', sold, { code: 'unknown' })).toContain('was divided into');
    }
  });

  it('gives each part its tags in the order in which they were entered', () => {
    const hall = openHall();
    const { saleId, must } = hall;
    const tags = [1, 2, 3].map(bobcatTag);
    const { lotId } = must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '4', tags });
    const answer = must('lot.divide', { lotId, parts: [{ count: '2' }, { count: '2' }] });
    expect(answer.lots).toMatchObject([
      { lotNo: '1A', holds: [] },
      { lotNo: '1B', holds: [expect.stringContaining('attach 1 more')] },
    ]);
    expect(tagsOf(hall, 1)).toEqual(tags.slice(0, 2).map(({ tag }) => tag));
    expect(tagsOf(hall, 2)).toEqual(tags.slice(2).map(({ tag }) => tag));
  });

  it('keeps the place of a lot that was moved in the running order', () => {
    const hall = openHall();
    const { saleId, must } = hall;
    for (const _ of [1, 2]) must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '4' });
    must('lot.place', { saleId, lotNo: '2' });
    must('lot.divide', { lotId: 2, parts: [{ count: '1' }, { count: '3' }] });
    expect(lots(hall).map(({ place }) => place)).toEqual([null, -1, -1]);
  });

  it('refuses parts that are not the whole, and a lot with a bid on it, and a lot that was called', () => {
    const hall = openHall();
    const { saleId, must, refuses } = hall;
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
    const parts = [{ count: '4' }, { count: '6' }];
    refuses('lot.divide', { lotId: 1, parts: [{ count: '4' }, { count: '5' }] }, { code: 'malformed', field: 'parts' });
    refuses('lot.divide', { lotId: 9, parts }, { code: 'unknown', field: 'lotId' });
    must('bid.leave', { saleId, lotNo: '1', buyerNo: 10, kind: 'left', price: '5.00' });
    refuses('lot.divide', { lotId: 1, parts }, { code: 'not_allowed', field: 'parts' });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
    must('outcome.record', { saleId, lotNo: '2', kind: 'passed' });
    refuses('lot.divide', { lotId: 2, parts }, { code: 'already', field: 'lotNo' });
  });

  it('loses no piece and no tag, however often lots are divided', () => {
    const splits = fc.array(fc.tuple(fc.nat(), fc.nat()), { maxLength: 8 });
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 12 }), fc.nat({ max: 12 }), splits, (count, tagged, acts) => {
        const hall = openHall();
        const tags = Array.from({ length: tagged }, (_, serial) => bobcatTag(serial + 1));
        hall.must('lot.add', { saleId: hall.saleId, sellerNo: 1, goods: 'bobcat', count: String(count), tags });
        for (const [which, where] of acts) {
          const all = lots(hall);
          const lot = all[which % all.length];
          if (!lot?.count || lot.count < 2) continue;
          const first = 1 + (where % (lot.count - 1));
          const parts = [{ count: String(first) }, { count: String(lot.count - first) }];
          hall.must('lot.divide', { lotId: lot.id, parts });
        }
        const after = lots(hall);
        expect(after.reduce((so, lot) => so + (lot.count ?? 0), 0)).toBe(count);
        expect(new Set(numbers(hall)).size).toBe(after.length);
        expect(after.flatMap(({ id }) => tagsOf(hall, id)).sort()).toEqual(tags.map(({ tag }) => tag).sort());
        hall.book.close();
      }),
      { numRuns: 40 },
    );
  });
});
