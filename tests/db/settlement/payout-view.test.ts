import { describe, expect, it } from 'vitest';
import { type SaleRow, saleById } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { payoutSellerView } from '#db/settlement/payout.ts';
import { payoutView } from '#db/settlement/payout-view.ts';
import { type Hall, openHall } from '#tests/support/hall.ts';

/** Seller 1 has sold a lot and has one to come, seller 2 has a passed lot, seller 3 has only just arrived. */
function threeSellers(): Hall {
  const hall = openHall();
  const { must, saleId } = hall;
  for (const sellerNo of [2, 3]) {
    const { personId } = must('person.enrol', { name: `Seller ${sellerNo}`, memberUntil: '2026-12-31' });
    must('seller.register', { saleId, sellerNo, partners: [{ personId }] });
  }
  const lots = [
    { sellerNo: 1, count: '10' },
    { sellerNo: 1, count: '4' },
    { sellerNo: 2, count: '1' },
  ];
  for (const lot of lots) must('lot.add', { saleId, goods: 'raccoon', ...lot });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
  must('outcome.record', { saleId, lotNo: '3', kind: 'passed', price: null, buyerNo: null });
  return hall;
}

function saleOf(book: Book): SaleRow {
  const sale = saleById(book, 1);
  if (!sale) throw new Error('the sale is gone');
  return sale;
}

const viewOf = (book: Book) => payoutView(book, saleOf(book));

describe('the treasurer’s table', () => {
  it('keeps a net that still changes out of what is to be paid and what is owed', () => {
    const { book } = threeSellers();
    const view = viewOf(book);
    expect(view.rows.map(({ state, waiting, netCents }) => ({ state, waiting, netCents }))).toEqual([
      // 100.00 less 6 %, 0.25 for the lot and 5.00 for the number.
      { state: 'waiting', waiting: 1, netCents: 8875 },
      // 1.00 for the passed lot, 0.25 and 5.00.
      { state: 'nothing_sold', waiting: 0, netCents: -625 },
      { state: 'nothing_sold', waiting: 0, netCents: -500 },
    ]);
    expect(view).toMatchObject({ toPayCents: 0, owedCents: 1125, waiting: 1, issued: 0 });
  });

  it('offers as many sheets as the book then issues, at every stage', () => {
    const { book, give, must, saleId } = threeSellers();
    const issueAll = () => {
      const all = { saleId, sellerNo: null, seen: viewOf(book).ready };
      const answer = give('settlement.issue', all, { station: 'payout' });
      return answer.ok ? answer.value.issued.length : 0;
    };
    // One has lots to be called and one has none yet: their sheets are for later.
    expect(viewOf(book).ready).toBe(1);
    expect(issueAll()).toBe(1);
    expect(viewOf(book)).toMatchObject({ ready: 0, issued: 1, waiting: 1 });
    expect(issueAll()).toBe(0);
    must('sale.stage', { saleId, stage: 'settling', reason: '', left: 1 });
    // The lot that was not called stays with its seller, and may still be called: that sheet is asked for by number.
    expect(viewOf(book)).toMatchObject({ ready: 1, readyBills: { count: 1, cents: 500 }, waiting: 1, toPayCents: 0 });
    expect(issueAll()).toBe(1);
    expect(viewOf(book)).toMatchObject({ ready: 0, issued: 2, waiting: 1 });
    must('settlement.issue', { saleId, sellerNo: 1, answered: ['lots_not_called'] });
    expect(viewOf(book)).toMatchObject({ ready: 0, issued: 3, waiting: 0, checks: { count: 1, cents: 8875 } });
  });

  it('offers none before the sale has begun', () => {
    const { book, give, saleId } = openHall({ stage: 'intake' });
    expect(viewOf(book).ready).toBe(0);
    expect(give('settlement.issue', { saleId, sellerNo: null }, { station: 'payout' })).toMatchObject({ ok: false });
  });
});

describe('the charges on a seller’s own page', () => {
  it('are those that stand, the oldest first, and say which of them bought a membership', () => {
    const { book, must, saleId } = threeSellers();
    const charge = { saleId, sellerNo: 1, amount: '25.00', how: 'deducted', note: '' } as const;
    must('charge.add', { ...charge, kind: 'advance', note: 'lent' });
    must('charge.add', { ...charge, kind: 'adjustment', how: 'cash', amount: '-5.00', note: 'charged twice' });
    must('dues.take', {
      saleId,
      personId: 1,
      sellerNo: 1,
      how: 'deducted',
      amount: '10.00',
      memberUntil: '2027-12-31',
    });
    const waived = must('charge.add', { ...charge, kind: 'dues' });
    must('charge.waive', { chargeId: waived.chargeId, reason: 'entered twice' });
    must('charge.add', { ...charge, sellerNo: 2, kind: 'advance' });
    const chargesOf = (sellerNo: number) =>
      payoutSellerView(book, saleOf(book), { sellerNo, drawnOn: '2026-03-01' })?.charges;
    expect(chargesOf(1)).toMatchObject([
      { chargeId: 1, label: 'Advance: lent', how: 'deducted', amount: { words: '25.00' }, boughtMembership: false },
      { chargeId: 2, label: 'Adjustment: charged twice', how: 'cash', amount: { words: '-5.00' } },
      { chargeId: 3, label: 'Dues: paid until Dec 31, 2027', boughtMembership: true },
    ]);
    expect(chargesOf(1)).toHaveLength(3);
    expect(chargesOf(2)).toMatchObject([{ label: 'Advance', boughtMembership: false }]);
    expect(chargesOf(3)).toEqual([]);
  });
});
