/** A called sale worked by hand: equal left bids, one below the minimum, one under the room, and an under-bid taken up. */
import { describe, expect, it } from 'vitest';
import { lotByNumber, saleById } from '#db/book/find.ts';
import { lotCard } from '#db/lot/queries.ts';
import { leftView } from '#db/outcome/bids.ts';
import { blockView } from '#db/outcome/block-view.ts';
import { calledLot } from '#db/outcome/called.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { lotNo } from '#lib/lot/number.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { openHall } from '#tests/support/hall.ts';

function saleWithLeftBids() {
  const hall = openHall();
  const { must, saleId, book } = hall;
  const personId = must('person.enrol', { name: 'Eli Frost' }).personId;
  must('buyer.register', { saleId, buyerNo: 13, personId, cleared: true });
  for (const [count, minimum] of [
    ['10', ''],
    ['4', '10.00'],
    ['2', ''],
    ['5', ''],
  ] as const) {
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count, minimum });
  }
  for (const [lotNo, buyerNo, price] of [
    ['1', 11, '16.00'],
    ['1', 13, '16.00'],
    ['2', 11, '9.00'],
    ['3', 13, '12.00'],
  ] as const) {
    must('bid.leave', { saleId, lotNo, buyerNo, kind: 'left', price });
  }
  const sold = (lotNo: string, buyerNo: number, price: string) =>
    ({ saleId, lotNo, kind: 'sold', price, buyerNo }) as const;
  const sale = () => saleById(book, saleId) ?? expect.unreachable();
  const remarksOf = (lot: string) => calledLot(book, lotByNumber(book, saleId, lotNo(lot))?.id ?? 0)?.remarks;
  return { ...hall, sold, sale, remarksOf };
}

describe('a called sale with left bids', () => {
  it('comes out as by hand, to the cent', () => {
    const { book, saleId, must, refuses, sold, sale, remarksOf } = saleWithLeftBids();
    expect(blockView(book, sale()).ahead[0]?.bids).toBe(
      'buyer 11 up to 16.00, who has it at 16.00 without a bid in the room; buyer 13 up to 16.00',
    );
    const asked = { code: 'needs_answer', field: 'left_bid' } as const;
    expect(refuses('outcome.record', sold('1', 10, '15.50'), asked)).toContain('Buyer 11 left a bid of 16.00 on lot 1');
    refuses('outcome.record', sold('1', 13, '16.00'), asked);
    refuses('outcome.record', { saleId, lotNo: '1', kind: 'passed' }, asked);
    must('outcome.record', sold('1', 11, '16.00'));
    // A bid below the minimum keeps no lot from staying unsold, and none from going above it.
    const passed = must('outcome.record', { saleId, lotNo: '2', kind: 'passed' });
    must('outcome.reopen', { lotId: passed.lotId, replacesId: passed.outcomeId, reason: 'a bid came' });
    must('outcome.record', sold('2', 10, '10.00'));
    must('outcome.record', sold('3', 10, '14.00'));
    const fourth = must('outcome.record', sold('4', 10, '20.00'));
    must('bid.leave', { saleId, lotNo: '4', buyerNo: 11, kind: 'under', price: '19.00' });
    expect(lotCard(book, sale(), lotNo('4'))?.underBid).toMatchObject({ buyer: '11', price: '19.00' });
    const takenUp = { kind: 'sold', price: '19.00', buyerNo: 11, reason: 'under-bid taken up' } as const;
    must('outcome.correct', { lotId: fourth.lotId, replacesId: fourth.outcomeId, ...takenUp });
    expect(remarksOf('4')).toEqual(['under_bid']);
    expect(remarksOf('3')).toEqual([]);
    expect(lotCard(book, sale(), lotNo('4'))?.underBid).toBeNull();
    // 160.00 + 40.00 + 28.00 + 95.00 = 323.00; 6 % of each 9.60 + 2.40 + 1.68 + 5.70 = 19.38; 4 × 0.25; 5.00.
    const [seller] = settleSale(saleFacts(book, saleId));
    expect(seller).toMatchObject({ grossCents: 32_300, commissionCents: 1938, netCents: 29_762 });
    expect(leftView(book, sale()).called.map(({ buyerNo, lotNo, became }) => `${buyerNo} ${lotNo} ${became}`)).toEqual([
      '11 1 took the lot at 16.00',
      '11 2 outbid: sold at 10.00',
      '13 1 an equal bid took it at 16.00',
      '13 3 outbid: sold at 14.00',
    ]);
    expect(checkReplay(book.sqlite)).toMatchObject({ ok: true });
  });

  it('keeps the answer where a left bid was passed over all the same', () => {
    const { must, sold, remarksOf } = saleWithLeftBids();
    must('outcome.record', { ...sold('1', 10, '15.50'), answered: ['left_bid'] });
    expect(remarksOf('1')).toEqual(['left_bid']);
  });

  it('takes the under-bid up for a lot that was not paid for and is called again', () => {
    const { book, saleId, must, sold, sale, remarksOf } = saleWithLeftBids();
    must('outcome.record', sold('4', 10, '20.00'));
    must('bid.leave', { saleId, lotNo: '4', buyerNo: 11, kind: 'under', price: '19.00' });
    must('outcome.unpaid', { saleId, buyerNo: 10, lots: ['4'], fate: 'again', reason: 'no money' }, 'till');
    expect(blockView(book, sale()).ahead.at(-1)?.bids).toBe('under-bid: buyer 11 at 19.00');
    must('outcome.record', sold('4', 11, '19.00'));
    expect(remarksOf('4')).toEqual(['under_bid']);
  });
});
