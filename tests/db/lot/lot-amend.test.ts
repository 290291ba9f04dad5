import { describe, expect, it } from 'vitest';
import { bobcatTag, openHall, rowsOf } from '#tests/support/hall.ts';

describe('lot.amend', () => {
  const { book, saleId, must, refuses } = openHall();
  const { lotId } = must('lot.add', {
    saleId,
    sellerNo: 1,
    goods: 'bobcat',
    count: '2',
    tags: [bobcatTag(1), bobcatTag(2)],
  });
  const called = must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' }).lotId;
  must('outcome.record', { saleId, lotNo: '2', kind: 'passed' });
  const said = { lotId, goods: 'bobcat', count: '1', tags: [bobcatTag(2)], minimum: '100' };

  it('puts what was said of a lot right, with its tags', () => {
    expect(must('lot.amend', said)).toMatchObject({ holds: [] });
    expect(rowsOf(book).lot?.[0]).toMatchObject({ count: 1, minimum_cents: 10000 });
    expect(rowsOf(book).tag).toMatchObject([{ tag: bobcatTag(2).tag, position: 0 }]);
  });

  it('frees the tags that came off', () => {
    must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1', tags: [bobcatTag(1)] });
  });

  it.each([
    [{ lotId: 99 }, 'unknown', 'lotId'],
    [{ lotId: called, goods: 'raccoon', tags: [] }, 'already', 'lotNo'],
    [{ goods: 'mink' }, 'unknown', 'goods'],
    [{ goods: 'raccoon' }, 'malformed', 'tags'],
    [{ count: '' }, 'missing', 'count'],
    [{ tags: [bobcatTag(1)] }, 'taken', 'tags'],
  ] as const)('refuses %j', (over, code, field) => {
    refuses('lot.amend', { ...said, ...over }, { code, field });
  });

  it('refuses a sale that settles, though the lot was never called', () => {
    const hall = openHall();
    hall.must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
    hall.must('sale.stage', { saleId, stage: 'settling', reason: '', left: 1 });
    hall.refuses('lot.amend', { lotId: 1, goods: 'raccoon', count: '4', tags: [] }, { code: 'wrong_stage' });
  });
});
