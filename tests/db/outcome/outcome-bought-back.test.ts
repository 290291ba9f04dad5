import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { tillView } from '#db/buyer/queries.ts';
import { boardView } from '#db/outcome/board-view.ts';
import { calledLots, glance } from '#db/outcome/called.ts';
import { pricedSeasons } from '#db/price/season-prices.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { placeOfTag } from '#db/tag/queries.ts';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { saleBalance } from '#lib/report/balance.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { openHall, rowsOf } from '#tests/support/hall.ts';

/** Lot 1 is sold at 7.25 each, lot 2 bought back at 6.00 each; both have ten pieces. */
function soldAndBack() {
  const hall = openHall();
  const { saleId, must } = hall;
  for (const count of ['10', '10', '1'])
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count, minimum: '7.00' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
  const { outcomeId } = must('outcome.record', { saleId, lotNo: '2', kind: 'bought_back', price: '6.00' });
  const sale = saleById(hall.book, saleId);
  if (!sale) throw new Error('the sale is gone');
  return { ...hall, outcomeId, sale };
}

// Common practice, no source: the lot was called, so the house has its commission; nobody pays the amount.
describe('a lot that its seller buys back', () => {
  it('stands with its price and without a buyer, and is no money anywhere but commission and lot fee', () => {
    const { book, saleId } = soldAndBack();
    expect(rowsOf(book).outcome?.at(-1)).toMatchObject({ kind: 'bought_back', price_cents: 600, buyer_id: null });
    const facts = saleFacts(book, saleId);
    const [settled] = settleSale(facts);
    // 6 % of 72.50 is 4.35, of 60.00 is 3.60.
    expect(settled).toMatchObject({
      ...{
        lotsSold: 1,
        lotsPassed: 0,
        grossCents: 7250,
        commissionCents: 435 + 360,
        lotFeesCents: 50,
        noSaleFeesCents: 0,
      },
      netCents: 7250 - 435 - 360 - 50 - 500,
    });
    expect(invoiceSale(facts).flatMap(({ rows }) => rows.map(({ lotNo }) => lotNo))).toEqual(['1']);
    expect(saleBalance(facts).map(({ difference }) => difference)).toEqual([0, 0, 0, 0]);
  });

  it('is counted and shown as what it is, and its price is no price', () => {
    const { book, sale } = soldAndBack();
    const [back, sold] = calledLots(book, sale.id, 2);
    expect(back).toMatchObject({ kind: 'bought_back', priceCents: 600, amountCents: 0, buyerNo: null });
    expect(glance(book, sale.id, 3)).toMatchObject({ sold: 1, bought_back: 1, passed: 0, left: 1, total: '72.50' });
    expect(sold).toMatchObject({ kind: 'sold', amountCents: 7250 });
    expect(boardView(book, { sale, now: '' }).results[0]).toMatchObject({
      kind: 'bought_back',
      price: '',
      standsFor: '',
      buyerNo: null,
    });
    expect(pricedSeasons(book, 1)[0]?.goods[0]?.range).toMatchObject({ lots: 1, unsold: 0, lowCents: 725 });
    expect(tillView(book, sale).rows.map(({ lots }) => lots)).toEqual([1, 0, 0]);
  });

  it('is refused with a buyer, without a price and to a lot on hold, and is put right like any other', () => {
    const { saleId, must, refuses, outcomeId, book } = soldAndBack();
    const back = { saleId, lotNo: '3', kind: 'bought_back', price: '8.00' } as const;
    refuses('outcome.record', { ...back, buyerNo: 12 }, { code: 'malformed', field: 'buyerNo' });
    refuses('outcome.record', { ...back, price: null }, { code: 'missing', field: 'price' });
    must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1' });
    refuses('outcome.record', { ...back, lotNo: '4' }, { code: 'on_hold', field: 'lotNo' });
    const again = refuses('outcome.record', { ...back, lotNo: '2' }, { code: 'already', field: 'lotNo' });
    expect(again).toContain('bought back by its seller at 6.00');
    const right = {
      lotId: 2,
      replacesId: outcomeId,
      reason: 'not the seller',
      kind: 'sold',
      price: '7.00',
      buyerNo: 11,
    } as const;
    must('outcome.correct', right);
    expect(rowsOf(book).outcome?.at(-1)).toMatchObject({ kind: 'sold', price_cents: 700, replaces_id: outcomeId });
  });

  it('goes home with its tags, which may come back next year', () => {
    const { saleId, must, book } = soldAndBack();
    const tags = [{ tag: 'US-CITES WY BOB 2025 000101', condition: 'intact' }] as const;
    const { lotNo } = must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1', tags });
    must('outcome.record', { saleId, lotNo, kind: 'bought_back', price: '300.00' });
    expect(placeOfTag(book, tags[0].tag)).toMatchObject({ lotNo, wentHome: true });
  });
});
