import { beforeEach, describe, expect, it } from 'vitest';
import { bobcatTag, GOODS, type Hall, hallOf, openHall, rowsOf, SALE } from '#tests/support/hall.ts';

let hall: Hall;

beforeEach(() => {
  const { book, must } = openHall();
  const sale = { ...SALE, name: 'Written Sale', bidding: 'sealed' } as const;
  const planned = must('sale.plan', { sale, goods: GOODS });
  hall = hallOf(book, planned.saleId as number);
  const { saleId } = hall;
  hall.must('sale.stage', { saleId, stage: 'intake', reason: '' });
  hall.must('seller.register', { saleId, sellerNo: 1, partners: [{ personId: 1 }] });
  for (const buyerNo of [10, 11])
    hall.must('buyer.register', { saleId, buyerNo, personId: buyerNo - 8, cleared: true });
  for (const minimum of ['', '8.00', '8.00', ''])
    hall.must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3', minimum });
  hall.must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '2', tags: [bobcatTag(1)] });
});

const bid = (lotNo: string, buyerNo: number, price: string) =>
  hall.must('bid.leave', { saleId: hall.saleId, lotNo, buyerNo, kind: 'written', price });
const start = () => hall.must('sale.stage', { saleId: hall.saleId, stage: 'selling', reason: '' });
const close = () => hall.must('bids.close', { saleId: hall.saleId });
const outcomes = () => rowsOf(hall.book).outcome as { lot_id: number; price_cents: number; awarded: number }[];

describe('bids.award', () => {
  it('awards what the bids decide in one act, and leaves the rest to the sellers', () => {
    start();
    bid('1', 10, '7.25');
    bid('1', 11, '7.25');
    bid('2', 11, '8.00');
    bid('3', 10, '7.75');
    bid('5', 10, '99.00');
    close();
    expect(hall.must('bids.award', { saleId: hall.saleId })).toMatchObject({
      awarded: 2,
      belowMinimum: 1,
      noBid: 1,
      onHold: 1,
    });
    expect(outcomes()).toMatchObject([
      { lot_id: 1, price_cents: 725, buyer_id: 4, awarded: 1 },
      { lot_id: 2, price_cents: 800, buyer_id: 5, awarded: 1 },
    ]);
    const accepted = {
      saleId: hall.saleId,
      lotNo: '3',
      kind: 'sold',
      price: '7.75',
      buyerNo: 10,
      answered: ['below_minimum'],
    } as const;
    hall.must('outcome.record', accepted);
    hall.must('outcome.record', { saleId: hall.saleId, lotNo: '4', kind: 'passed' });
    expect(hall.must('bids.award', { saleId: hall.saleId })).toMatchObject({
      awarded: 0,
      belowMinimum: 0,
      noBid: 0,
      onHold: 1,
    });
  });

  it('counts no bid that was taken back, and none that its buyer wrote before it (UCC § 2-328(3))', () => {
    start();
    bid('1', 10, '7.00');
    const higher = bid('1', 10, '9.00');
    bid('1', 11, '5.00');
    hall.must('bid.retract', { bidId: higher.bidId });
    close();
    hall.must('bids.award', { saleId: hall.saleId });
    expect(outcomes()).toMatchObject([{ price_cents: 500 }]);
  });

  it('is refused for a called sale, before the sale has started, and for no sale', () => {
    hall.refuses('bids.award', { saleId: hall.saleId }, { code: 'wrong_stage', field: 'saleId' });
    hall.refuses('bids.award', { saleId: 1 }, { code: 'not_allowed', field: 'saleId' });
    hall.refuses('bids.award', { saleId: 99 }, { code: 'unknown', field: 'saleId' });
  });
});
