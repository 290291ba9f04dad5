import { describe, expect, it } from 'vitest';
import { goneLot } from '#db/lot/former.ts';
import { lotNo } from '#lib/lot/number.ts';
import { bobcatTag, type Hall, openHall, rowsOf } from '#tests/support/hall.ts';

interface LotColumns {
  readonly lot_number: number;
  readonly lot_letter: string;
  readonly count: number | null;
  readonly weight_thousandths: number | null;
  readonly minimum_cents: number | null;
}

const lots = (hall: Hall) => rowsOf(hall.book).lot as LotColumns[];
const numbers = (hall: Hall) => lots(hall).map(({ lot_number, lot_letter }) => `${lot_number}${lot_letter}`);
const tagsOf = (hall: Hall, lotId: number) =>
  hall.book.sqlite.prepare('SELECT tag FROM tag WHERE lot_id = ? ORDER BY position').pluck().all(lotId);

/** Three raccoon lots of seller 1, numbered 1 to 3. */
function threeLots(): Hall {
  const hall = openHall();
  const { saleId, must } = hall;
  for (const count of ['10', '5', '7']) must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count });
  return hall;
}

describe('lot.join', () => {
  it('adds up pieces, and the number of the other is no more', () => {
    const hall = threeLots();
    expect(hall.must('lot.join', { lotId: 1, other: '2' })).toMatchObject({ lotNo: '1', holds: [] });
    expect(numbers(hall)).toEqual(['1', '3']);
    expect(lots(hall)[0]).toMatchObject({ count: 15 });
    hall.refuses('lot.join', { lotId: 1, other: '2' }, { code: 'unknown', field: 'other' });
  });

  it('joins again what was divided', () => {
    const hall = threeLots();
    hall.must('lot.divide', { lotId: 1, parts: [{ count: '4' }, { count: '6' }] });
    hall.must('lot.join', { lotId: 1, other: '1B' });
    expect(numbers(hall)).toEqual(['1A', '2', '3']);
    expect(lots(hall)[0]).toMatchObject({ count: 10 });
  });

  it('adds up weights, and minimums of whole lots', () => {
    const hall = openHall();
    const { saleId, must } = hall;
    for (const weight of ['7.35', '0.5']) must('lot.add', { saleId, sellerNo: 1, goods: 'castor', weight });
    for (const minimum of ['10.00', '5.50', '']) {
      must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', by: 'lot', count: '3', minimum });
    }
    must('lot.join', { lotId: 1, other: '2' });
    must('lot.join', { lotId: 3, other: '4' });
    expect(lots(hall)).toMatchObject([
      { weight_thousandths: 7850, count: null },
      { count: 6, minimum_cents: 1550 },
      { count: 3, minimum_cents: null },
    ]);
    hall.refuses('lot.join', { lotId: 5, other: '3' }, { code: 'not_allowed', field: 'other' });
  });

  it('brings the tags along, and lets the lot off its hold once they are whole', () => {
    const hall = openHall();
    const { saleId, must } = hall;
    must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '2', tags: [bobcatTag(1), bobcatTag(2)] });
    must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1', tags: [bobcatTag(3)] });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '1' });
    expect(must('lot.join', { lotId: 1, other: '2' })).toMatchObject({ holds: [] });
    expect(tagsOf(hall, 1)).toEqual([1, 2, 3].map((serial) => bobcatTag(serial).tag));
  });

  it('refuses lots that are not one seller’s goods of one kind', () => {
    const hall = threeLots();
    const { saleId, must, refuses } = hall;
    must('lot.add', { saleId, sellerNo: 1, goods: 'castor', weight: '2' });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '2', section: 'north', minimum: '4.00' });
    const said = refuses('lot.join', { lotId: 1, other: '4' }, { code: 'not_allowed', field: 'other' });
    expect(said).toContain('differ in goods, what a price stands for');
    expect(refuses('lot.join', { lotId: 5, other: '1' }, { code: 'not_allowed' })).toContain('differ in section');
    must('lot.amend', { lotId: 5, goods: 'raccoon', count: '2', minimum: '4.00', tags: [] });
    expect(refuses('lot.join', { lotId: 5, other: '1' }, { code: 'not_allowed' })).toContain('different minimums');
    refuses('lot.join', { lotId: 1, other: '1' }, { code: 'not_allowed', field: 'other' });
    refuses('lot.join', { lotId: 99, other: '1' }, { code: 'unknown', field: 'lotId' });
  });

  it('gives no number twice, not even the newest, and says what became of it', () => {
    const hall = threeLots();
    hall.must('lot.join', { lotId: 1, other: '3' });
    const { saleId, must } = hall;
    expect(goneLot(hall.book, saleId, lotNo('3'))).toEqual({ message: 'Lot 3 was joined to lot 1.', lots: ['1'] });
    expect(must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '1' })).toMatchObject({ lotNo: '4' });
  });

  it('leaves alone what was bid on or called', () => {
    const hall = threeLots();
    const { saleId, must, refuses } = hall;
    must('bid.leave', { saleId, lotNo: '2', buyerNo: 10, kind: 'left', price: '5.00' });
    refuses('lot.join', { lotId: 1, other: '2' }, { code: 'not_allowed', field: 'other' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'passed' });
    refuses('lot.join', { lotId: 3, other: '1' }, { code: 'already', field: 'other' });
    refuses('lot.join', { lotId: 1, other: '3' }, { code: 'already', field: 'lotNo' });
    must('outcome.reopen', { lotId: 1, replacesId: 1, reason: 'A bid came with the hammer.' });
    expect(refuses('lot.join', { lotId: 3, other: '1' }, { code: 'not_allowed' })).toContain('was called before');
  });
});
