import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { lastBuyers } from '#db/buyer/accounts.ts';
import { buyerPayment } from '#db/buyer/files.ts';
import { handOverView } from '#db/buyer/handover.ts';
import { invoicesShown, tillView } from '#db/buyer/queries.ts';
import { drawerView } from '#db/drawer/queries.ts';
import { lotCard } from '#db/lot/queries.ts';
import { lotNo } from '#lib/lot/number.ts';
import { GOODS, type Hall, SALE } from '#tests/support/hall.ts';
import { buyersDay } from '#tests/support/sales.ts';

function saleOf({ book, saleId }: Pick<Hall, 'book' | 'saleId'>) {
  const sale = saleById(book, saleId);
  if (!sale) throw new Error('the sale is gone');
  return sale;
}

describe('the till after a bill', () => {
  it('says which invoice there is, whether it is still true, and how many lots lie on the table', () => {
    const day = buyersDay();
    const { book, saleId, must } = day;
    const head = () => ({
      ...tillView(book, saleOf(day)).rows.find(({ buyerNo }) => buyerNo === 30),
      invoice: invoicesShown(book, saleId, [30]).get(30) ?? null,
    });
    expect(head()).toMatchObject({ invoice: null, lotsHere: 4 });
    must('invoice.issue', { saleId, buyerNo: 30 });
    must('payment.record', { saleId, direction: 'in', buyerNo: 30, method: 'cash', amount: '506.98' });
    must('handover.record', { saleId, buyerNo: 30, lots: ['1', '3'], pieces: '14', takenBy: 'Łucja Żółć' });
    expect(head()).toMatchObject({ invoice: { number: 1, stillTrue: true }, lotsHere: 2, owingCents: 0 });
    must('outcome.correct', { lotId: 2, replacesId: 2, kind: 'passed', reason: 'misheard' });
    expect(head()).toMatchObject({ invoice: { number: 1, stillTrue: false }, lotsHere: 1 });
    // What a correction of a lot touches is said where it is corrected.
    const touches = () => lotCard(book, saleOf(day), lotNo('1'))?.touches;
    expect(touches()).toEqual([
      ...['Invoice 1 was already handed to this buyer: the Till must correct it.'],
      ...['The lot was already handed over to its buyer.'],
    ]);
    must('handover.return', { saleId, lotNo: '1', reason: 'the wrong bundle' });
    expect(touches()).toHaveLength(1);
  });

  it('shows what lies here and what has gone, with who took it', () => {
    const { book, saleId, must } = buyersDay();
    must('sale.handover', { saleId, unpaid: true });
    must('handover.record', { saleId, buyerNo: 30, lots: ['2'], pieces: '1', takenBy: 'Her driver' });
    expect(handOverView(book, saleId, 30)).toMatchObject({
      here: [{ lotNo: '1', pieces: 12, tags: 0 }, { lotNo: '3', pieces: 2, tags: 2 }, { lotNo: '4' }],
      gone: [{ lotNo: '2', goods: 'Castor', pieces: 1, takenBy: 'Her driver', worker: 'Ada' }],
    });
    expect(handOverView(book, saleId, 99)).toBeUndefined();
    must('outcome.correct', { lotId: 2, replacesId: 2, kind: 'sold', price: '2.00', buyerNo: 11, reason: 'misheard' });
    expect(handOverView(book, saleId, 11)?.gone).toMatchObject([{ lotNo: '2', wentTo: 30 }]);
  });

  it('knows a payment with the invoice it went towards, and none that takes another back', () => {
    const { book, saleId, must } = buyersDay();
    const pay = () => must('payment.record', { saleId, direction: 'in', buyerNo: 30, method: 'cash', amount: '10.00' });
    pay();
    must('invoice.issue', { saleId, buyerNo: 30 });
    pay();
    must('payment.void', { paymentId: 1, reason: 'twice' });
    expect(buyerPayment(book, 1)).toMatchObject({ buyerNo: 30, invoiceNumber: null, voided: 'twice', worker: 'Ada' });
    expect(buyerPayment(book, 2)).toMatchObject({ invoiceNumber: 1, voided: null });
    expect(buyerPayment(book, 3)).toBeUndefined();
    expect(buyerPayment(book, 99)).toBeUndefined();
  });
});

describe('the drawer as it is shown', () => {
  it('is shut, then open, then counted; names cash from before it was opened', () => {
    const day = buyersDay();
    const { book, saleId, must } = day;
    const view = () => drawerView(book, saleOf(day));
    must('payment.record', { saleId, direction: 'in', buyerNo: 30, method: 'cash', amount: '10.00' });
    expect(view()).toMatchObject({ open: false, count: null, now: [], before: '10.00', entries: [] });
    must('drawer.record', { saleId, kind: 'opened', pieces: [{ denomination: '20', pieces: '5' }] });
    must('payment.record', { saleId, direction: 'in', buyerNo: 30, method: 'cash', amount: '15.00' });
    must('drawer.record', { saleId, kind: 'counted', pieces: [{ denomination: '20', pieces: '5' }], cards: '2.00' });
    const [cash, check, card] = view().count?.lines ?? [];
    expect(cash).toMatchObject({
      expected: '115.00',
      counted: '100.00',
      difference: { kind: 'short', words: '15.00 short' },
    });
    expect(check).toMatchObject({ expected: '0.00', counted: '', difference: null });
    expect(card).toMatchObject({ difference: { kind: 'over', words: '2.00 over' } });
    expect(view().entries).toMatchObject([
      { kind: 'opened', cash: '100.00', beside: [], newest: false, worker: 'Ada' },
      { kind: 'counted', cash: '100.00', beside: ['cards 2.00'], newest: true },
    ]);
    must('drawer.record', { saleId, kind: 'closed', pieces: [{ denomination: '5', pieces: '23' }] });
    expect(view()).toMatchObject({ open: false, now: [] });
    expect(view().count?.lines[0]?.difference).toEqual({ kind: 'even', words: 'even' });
  });
});

describe('last year’s buyers', () => {
  it('are offered until each has a number', () => {
    const day = buyersDay();
    const { book, must } = day;
    expect(lastBuyers(book, saleOf(day))).toBeNull();
    const sale = { ...SALE, name: 'Next Winter Sale', held_on: '2027-02-27' };
    const saleId = must('sale.plan', { sale, goods: GOODS }).saleId;
    const next = () => lastBuyers(book, saleOf({ book, saleId }));
    expect(next()).toEqual({ from: 'Late Winter Sale, 2026-02-28', count: 4 });
    must('buyers.carry', { saleId, seen: 4 });
    expect(next()).toBeNull();
  });
});
