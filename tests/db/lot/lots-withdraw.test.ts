import { describe, expect, it } from 'vitest';
import { openHall, rowsOf } from '#tests/support/hall.ts';

/** Lot 1 sold, lot 2 opened again, lot 3 on hold for its tags, lot 4 not called yet. */
function lateInTheAfternoon() {
  const hall = openHall();
  const { saleId, must } = hall;
  const lotIds = ['raccoon', 'raccoon', 'bobcat', 'raccoon'].map(
    (goods) => must('lot.add', { saleId, sellerNo: 1, goods, count: '3' }).lotId,
  );
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
  const replacesId = must('outcome.record', { saleId, lotNo: '2', kind: 'passed' }).outcomeId;
  must('outcome.reopen', { lotId: lotIds[1] ?? 0, replacesId, reason: 'A bid came in' });
  return hall;
}

const LEFT = { seen: 3, reason: 'No buyer stayed' };

describe('lots.withdraw', () => {
  it('withdraws all that is left, also on hold or opened again, and nothing that was called', () => {
    const { book, saleId, must } = lateInTheAfternoon();
    expect(must('lots.withdraw', { saleId, ...LEFT }).lots).toEqual(['2', '3', '4']);
    const withdrawn = (rowsOf(book).outcome as { kind: string; reason: string }[]).slice(3);
    expect(withdrawn).toMatchObject([2, 3, 4].map(() => ({ kind: 'withdrawn', reason: 'No buyer stayed' })));
    expect(withdrawn).toHaveLength(3);
  });

  it('withdraws none where a lot came in unseen, where one may not be withdrawn, or without a reason', () => {
    const { saleId, must, refuses } = lateInTheAfternoon();
    refuses('lots.withdraw', { saleId, ...LEFT, reason: ' ' }, { code: 'malformed', field: 'reason' });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3', withoutReserve: true });
    const told = refuses('lots.withdraw', { saleId, ...LEFT }, { code: 'conflict', field: 'seen' });
    expect(told).toContain('4 lots are still to be called, not 3');
    // UCC § 2-328(3): not once a bid stands on a lot without reserve.
    must('bid.leave', { saleId, lotNo: '5', buyerNo: 10, kind: 'left', price: '5.00' });
    refuses('lots.withdraw', { saleId, ...LEFT, seen: 4 }, { code: 'not_allowed', field: 'seen' });
  });

  it('is refused once the sale is settled', () => {
    const { saleId, must, refuses } = lateInTheAfternoon();
    must('sale.stage', { saleId, stage: 'settling', reason: '', left: 3 });
    refuses('lots.withdraw', { saleId, ...LEFT }, { code: 'wrong_stage' });
  });
});
