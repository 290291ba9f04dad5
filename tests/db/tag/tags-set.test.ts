import { describe, expect, it } from 'vitest';
import { bobcatTag, GOODS, openHall, rowsOf, SALE } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

describe('tags.set', () => {
  const { book, saleId, must, refuses } = openHall();
  const { lotId } = must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '2' });
  const raccoon = must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' }).lotId;
  must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1', tags: [bobcatTag(9)] });
  const called = must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1', tags: [bobcatTag(8)] }).lotId;
  must('outcome.record', { saleId, lotNo: '4', kind: 'passed' });

  it('says which tags are on the pieces, and tells what still holds the lot', () => {
    expect(must('tags.set', { lotId, tags: [bobcatTag(1)] }).holds).toHaveLength(1);
    expect(must('tags.set', { lotId, tags: [bobcatTag(1), bobcatTag(2)] }).holds).toEqual([]);
  });

  it('takes a tag that is broken, or of another State, and holds the lot for it', () => {
    const broken = { ...bobcatTag(2), condition: 'broken' };
    expect(must('tags.set', { lotId, tags: [bobcatTag(1), broken] }).holds).toHaveLength(1);
    const other = { tag: 'US-CITES MT BOB 2025 000001' };
    expect(must('tags.set', { lotId, tags: [bobcatTag(1), other] }).holds).toHaveLength(1);
  });

  it('takes the same list twice', () => {
    const tags = [bobcatTag(1), { ...bobcatTag(2), condition: 'intact' }] as const;
    for (const _ of [1, 2]) expect(must('tags.set', { lotId, tags }).holds).toEqual([]);
    expect(rowsOf(book).tag?.filter((row) => (row as { lot_id: number }).lot_id === lotId)).toHaveLength(2);
  });

  it.each([
    [{ lotId: 99, tags: [] }, 'unknown', 'lotId'],
    [{ lotId: called, tags: [] }, 'already', 'lotNo'],
    [{ lotId: raccoon, tags: [bobcatTag(5)] }, 'malformed', 'tags'],
    [{ lotId, tags: [bobcatTag(9)] }, 'taken', 'tags'],
    [{ lotId, tags: [bobcatTag(8)] }, 'taken', 'tags'],
    [{ lotId, tags: [bobcatTag(5), bobcatTag(5)] }, 'taken', 'tags'],
    [{ lotId, tags: [{ tag: '' }] }, 'missing', 'tags'],
  ] as const)('refuses %j', (input, code, field) => {
    refuses('tags.set', input, { code, field });
  });

  it('refuses a closed sale', () => {
    const hall = openHall();
    hall.must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1' });
    hall.must('sale.stage', { saleId, stage: 'settling', reason: '', left: 1 });
    hall.refuses('tags.set', { lotId: 1, tags: [bobcatTag(1)] }, { code: 'wrong_stage' });
  });
});

describe('a piece that went home unsold', () => {
  const hall = openHall();
  const { saleId, must, book } = hall;
  must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1', tags: [bobcatTag(1)] });
  must('outcome.record', { saleId, lotNo: '1', kind: 'passed' });
  closeSale(hall, saleId);
  const next = nextSale(hall);
  const live = () => book.sqlite.prepare('SELECT lot_id FROM tag WHERE live = 1 ORDER BY lot_id').pluck().all();

  it('comes back next year with its tag, which lives once', () => {
    must('lot.add', { saleId: next, sellerNo: 1, goods: 'bobcat', count: '1', tags: [bobcatTag(1)] });
    expect(live()).toEqual([2]);
  });

  it('has its tag where it was before when it is taken off again', () => {
    must('tags.set', { lotId: 2, tags: [] });
    expect(live()).toEqual([1]);
    must('tags.set', { lotId: 2, tags: [bobcatTag(1)] });
    expect(live()).toEqual([2]);
  });
});

function nextSale({ must }: ReturnType<typeof openHall>): number {
  const sale = { ...SALE, name: 'Next Winter Sale', held_on: '2027-02-27' };
  const saleId = must('sale.plan', { sale, goods: GOODS }).saleId;
  must('sale.stage', { saleId, stage: 'intake', reason: '' });
  must('seller.register', { saleId, sellerNo: 1, partners: [{ personId: 1 }] });
  return saleId;
}
