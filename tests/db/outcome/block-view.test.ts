import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { lotCard } from '#db/lot/queries.ts';
import { blockView } from '#db/outcome/block-view.ts';
import { boardView } from '#db/outcome/board-view.ts';
import { lotNo } from '#lib/lot/number.ts';
import { bobcatTag, GOODS, type Hall, hallOf, openHall, SALE } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

function saleOf({ book, saleId }: Hall) {
  const sale = saleById(book, saleId);
  if (!sale) throw new Error('no sale');
  return sale;
}

const hall = openHall();
const { book, saleId, must } = hall;
must('lot.add', {
  saleId,
  sellerNo: 1,
  goods: 'raccoon',
  count: '32',
  minimum: '5.00',
  size: 'XL',
  grade: 'I',
  note: 'pale',
});
must('lot.add', { saleId, sellerNo: 1, goods: 'castor', weight: '7.35' });
must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '2', tags: [bobcatTag(1)] });

describe('the view of the Block', () => {
  it('shows the lot that is up with all that is said of it', () => {
    must('bid.leave', { saleId, lotNo: '1', buyerNo: 10, kind: 'left', price: '6.00' });
    must('bid.leave', { saleId, lotNo: '1', buyerNo: 11, kind: 'left', price: '7.00' });
    must('bid.leave', { saleId, lotNo: '1', buyerNo: 11, kind: 'under', price: '9.00' });
    const [up, castor, bobcat] = blockView(book, saleOf(hall)).ahead;
    expect(up).toMatchObject({
      ...{
        lotNo: '1',
        sellerNo: 1,
        quantity: '32 pieces',
        goodsName: 'Raccoon',
        details: 'XL, I, pale',
        standsFor: 'each',
      },
      ...{ minimum: '5.00 each', earlier: '', sellersAsBuyers: [12] },
      bids: 'buyer 11 up to 7.00, who has it at 6.25 without a bid in the room; buyer 10 up to 6.00; under-bid: buyer 11 at 9.00',
    });
    expect(castor).toMatchObject({ quantity: '7.35 oz', standsFor: '/ oz', minimum: '' });
    expect(bobcat?.scene.holds).toHaveLength(1);
  });

  it('says nothing to the hall of minimums and left bids', () => {
    const { up } = boardView(book, { sale: saleOf(hall), now: '' });
    expect(up).toEqual({ lotNo: '1', goods: '32 pieces Raccoon', details: 'XL, I' });
  });

  it('goes on to the next lot, and shows a correction as the one that stands', () => {
    const sold = must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '13.25', buyerNo: 10 });
    const right = {
      lotId: sold.lotId,
      replacesId: sold.outcomeId,
      kind: 'sold',
      price: '13.50',
      buyerNo: 11,
      reason: 'misheard',
    } as const;
    must('outcome.correct', right);
    const view = blockView(book, saleOf(hall));
    expect(view.ahead.map((lot) => lot.lotNo)).toEqual(['2', '3']);
    expect(view.last).toMatchObject([
      {
        lotNo: '1',
        kind: 'sold',
        priceCents: 1350,
        buyerNo: 11,
        amountCents: 43_200,
        corrected: true,
        reason: 'misheard',
        worker: 'Ada',
      },
    ]);
    expect(view.glance).toMatchObject({ sold: 1, passed: 0, left: 2, total: '432.00' });
  });

  it('says what a correction touches', () => {
    expect(lotCard(book, saleOf(hall), lotNo('1'))?.touches).toEqual([]);
    must('sale.stage', { saleId, stage: 'settling', reason: '', left: 2 });
    must('settlement.issue', { saleId, sellerNo: 1, answered: ['lots_not_called'] }, 'payout');
    expect(lotCard(book, saleOf(hall), lotNo('1'))?.touches).toEqual([
      'Settlement sheet 1 was already handed to this seller: Payout must correct it.',
    ]);
    expect(lotCard(book, saleOf(hall), lotNo('9'))).toBeNull();
  });
});

describe("last season's range", () => {
  const years = openHall();
  const next = hallOf(years.book, 0);
  const sell = (at: Hall, no: string, price: string) =>
    at.must('outcome.record', { saleId: at.saleId, lotNo: no, kind: 'sold', price, buyerNo: 10 });
  for (const _lot of [1, 2, 3])
    years.must('lot.add', { saleId: years.saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
  sell(years, '1', '8.00');
  sell(years, '2', '14.50');
  const saleOfNextYear = next.must('sale.plan', {
    sale: { ...SALE, name: 'Next Winter Sale', held_on: '2027-02-27' },
    goods: GOODS,
  });
  const later = hallOf(years.book, saleOfNextYear.saleId as number);
  later.must('sale.stage', { saleId: later.saleId, stage: 'intake', reason: '' });
  later.must('seller.register', { saleId: later.saleId, sellerNo: 1, partners: [{ personId: 1 }] });
  later.must('buyer.register', { saleId: later.saleId, buyerNo: 10, personId: 2, cleared: true });
  for (const goods of ['raccoon', 'raccoon', 'raccoon'])
    later.must('lot.add', { saleId: later.saleId, sellerNo: 1, goods, count: '3' });
  later.must('sale.stage', { saleId: later.saleId, stage: 'selling', reason: '' });
  const asks = (price: string) =>
    later.refuses(
      'outcome.record',
      { saleId: later.saleId, lotNo: '1', kind: 'sold', price, buyerNo: 10 },
      { code: 'needs_answer', field: 'price_unusual' },
    );

  it('asks over three times the high and under a tenth of the low, and not within', () => {
    expect(blockView(years.book, saleOf(later)).ahead[0]?.earlier).toBe('8.00 to 14.50');
    asks('43.75');
    asks('0.75');
    sell(later, '1', '43.50');
    sell(later, '2', '1.00');
  });

  it('follows a correction of the earlier sale, also after that sale was closed and reopened', () => {
    closeSale(years, 1);
    expect(blockView(years.book, saleOf(later)).ahead[0]?.earlier).toBe('8.00 to 14.50');
    years.must('sale.stage', { saleId: 1, stage: 'settling', reason: 'a price was wrong' });
    years.must('outcome.correct', {
      lotId: 2,
      replacesId: 2,
      kind: 'sold',
      price: '20.00',
      buyerNo: 10,
      reason: 'misheard',
    });
    closeSale(years, 1);
    expect(blockView(years.book, saleOf(later)).ahead[0]?.earlier).toBe('8.00 to 20.00');
  });
});
