/** A called sale worked by hand: equal left bids, one below the minimum, one under the room and one above it, and an under-bid taken up. */
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
import { CALLED, cameOut, fiveLots, LEFT, twoOpenSales } from './worked-bids.ts';

function saleWithLeftBids() {
  const hall = fiveLots();
  const { must, saleId, book } = hall;
  for (const { handedIn, ...bid } of LEFT.map((one) => ({ handedIn: undefined, ...one }))) {
    const handedInAt = handedIn && { handedInAt: `2026-02-28T${handedIn}:00Z` };
    must('bid.leave', { saleId, ...bid, kind: 'left', ...handedInAt });
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
    expect(refuses('outcome.record', sold('5', 10, '12.00'), asked)).toContain('By the terms they have it at 12.25.');
    must('outcome.record', sold('5', 11, '12.25'));
    const { became, ...money } = CALLED;
    expect(cameOut(book, saleId)).toEqual(money);
    expect(leftView(book, sale()).called.map((one) => `${one.buyerNo} ${one.lotNo} ${one.became}`)).toEqual(became);
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
    expect(blockView(book, sale()).ahead.find((lot) => lot.lotNo === '4')?.bids).toBe('under-bid: buyer 11 at 19.00');
    must('outcome.record', sold('4', 11, '19.00'));
    expect(remarksOf('4')).toEqual(['under_bid']);
  });
});

function worked() {
  const { next, personId, ...hall } = twoOpenSales();
  const { book, saleId } = hall;
  const netCents = () => settleSale(saleFacts(book, saleId)).find(({ sellerNo }) => sellerNo === 2)?.netCents;
  const dues = { personId, how: 'cash', amount: '25.00', memberUntil: '2026-12-31' } as const;
  return { ...hall, next, netCents, dues };
}

describe('dues across two open sales', () => {
  it('taken at the next table leave the sale that is being settled to the cent, on whatever day it is held', () => {
    const { must, next, netCents, dues } = worked();
    expect(netCents()).toBe(17_475);
    const taken = must('dues.take', { saleId: next, ...dues });
    expect(taken).toMatchObject({ unchanged: ['Late Winter Sale'] });
    expect(netCents()).toBe(17_475);
    must('dues.void', { duesId: taken.duesId, reason: 'wrong person' });
    expect(netCents()).toBe(17_475);
  });

  it('taken at the sale that is being settled ask first, with the difference', () => {
    const { must, refuses, saleId, netCents, dues } = worked();
    const late = { saleId, sellerNo: 2, ...dues } as const;
    expect(refuses('dues.take', late, { code: 'needs_answer', field: 'counts' })).toContain(
      'seller number 2 gets 182.75 instead of 174.75',
    );
    const only = must('dues.take', { ...late, counts: false });
    // The cash for the dues is no part of the net.
    expect(netCents()).toBe(17_475);
    must('dues.void', { duesId: only.duesId, reason: 'they count after all' });
    const counted = must('dues.take', { ...late, counts: true });
    expect(netCents()).toBe(18_275);
    must('dues.void', { duesId: counted.duesId, reason: 'wrong person' });
    expect(netCents()).toBe(17_475);
  });
});
