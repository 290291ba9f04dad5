/** What a receipt says was owed: by the payments up to it in the order of the log, whatever came after. */
import { describe, expect, it } from 'vitest';
import { buyerPayment } from '#db/buyer/files.ts';
import { sellerPayment } from '#db/payment/receipts.ts';
import { leftAfter } from '#lib/payment/paid-so-far.ts';
import { type Hall, openHall } from '#tests/support/hall.ts';
import { buyersDay } from '#tests/support/sales.ts';

const pay = ({ must, saleId }: Hall, amount: string, direction: 'in' | 'out' = 'in') =>
  must('payment.record', { saleId, direction, buyerNo: 30, method: 'cash', amount, answered: ['more_than_owed'] })
    .paymentId;
const leftOf = ({ book }: Hall, paymentId: number) => buyerPayment(book, paymentId)?.leftCents;

// Buyer 30 owes 506.98: the sum is worked out in tests/papers/buyer-papers.test.ts.
describe('the balance on a buyer’s receipt', () => {
  it('goes down with each payment, and no later one changes an earlier receipt', () => {
    const day = buyersDay();
    day.must('invoice.issue', { saleId: 1, buyerNo: 30 });
    const [first, second] = [pay(day, '100.00'), pay(day, '400.00')];
    const third = pay(day, '10.00');
    expect([first, second, third].map((one) => leftOf(day, one))).toEqual([40_698, 698, -302]);
    expect(leftOf(day, pay(day, '3.02', 'out'))).toBe(0);
    // One that is voided later stood when the next was taken.
    day.must('payment.void', { paymentId: first, reason: 'wrong buyer' });
    expect([second, third].map((one) => leftOf(day, one))).toEqual([698, -302]);
    // What was voided before a payment does not count in it: 506.98 − 400.00 − 10.00 + 3.02 − 50.00.
    expect(leftOf(day, pay(day, '50.00'))).toBe(5_000);
  });

  it('is that of then where a lot was put right since, and names the invoice that corrects it', () => {
    const day = buyersDay();
    day.must('invoice.issue', { saleId: 1, buyerNo: 30 });
    const first = pay(day, '100.00');
    const right = { kind: 'sold', price: '115.00', buyerNo: 30, reason: 'misheard' } as const;
    day.must('outcome.correct', { lotId: 3, replacesId: 3, ...right }, 'block');
    day.must('invoice.issue', { saleId: 1, buyerNo: 30 });
    expect(buyerPayment(day.book, first)).toMatchObject({ leftCents: 40_698, invoiceNumber: 1, correctedBy: 2 });
    // 484.62 by now.
    expect(buyerPayment(day.book, pay(day, '100.00'))).toMatchObject({ leftCents: 28_462, correctedBy: null });
  });

  it('without an invoice, or with lots bought since, is of what had been bought by then', () => {
    const day = buyersDay();
    const early = pay(day, '500.00');
    day.must('invoice.issue', { saleId: 1, buyerNo: 30 });
    day.must('lot.add', { saleId: 1, sellerNo: 1, goods: 'raccoon', count: '10' });
    day.must('outcome.record', { saleId: 1, lotNo: '5', kind: 'sold', price: '10.00', buyerNo: 30 }, 'block');
    expect(buyerPayment(day.book, early)).toMatchObject({ leftCents: 698, invoiceNumber: null });
    // 553.37 and 27.67 premium: 581.04 × 1.065 is 618.8076 (the premium of each lot rounded); less 500.00 and 18.81.
    expect(buyerPayment(day.book, pay(day, '18.81'))).toMatchObject({ leftCents: 10_000, invoiceNumber: 1 });
  });

  it('of a deposit before the first lot is what the association holds', () => {
    const hall = openHall();
    const { must, saleId, book } = hall;
    const deposit = { saleId, direction: 'in', buyerNo: 10, method: 'cash', amount: '50.00' } as const;
    const { paymentId } = must('payment.record', { ...deposit, answered: ['more_than_owed'] });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '1' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 }, 'block');
    expect(buyerPayment(book, paymentId)).toMatchObject({ leftCents: -5_000, invoiceNumber: null });
  });
});

describe('the balance on a seller’s receipt', () => {
  // Seller 2 are Ada Birch and Zoë Ærøe by 1 and 2 parts: guests, as Zoë is no member. 87.00 less 10 % and 250.00 less
  // 6 %, two lot fees of 0.25 and the number for 5.00 make 307.80: Ada's third is 102.60.
  const soldDay = () => {
    const day = buyersDay();
    day.must('settlement.issue', { saleId: 1, sellerNo: null, seen: 2 }, 'payout');
    const cash = (personId: number, amount: string) =>
      day.must(
        'payment.record',
        { saleId: 1, direction: 'out', sellerNo: 2, personId, method: 'cash', amount },
        'payout',
      ).paymentId;
    return { ...day, cash };
  };
  const leftOn = ({ book }: Hall, paymentId: number) => {
    const paid = sellerPayment(book, paymentId);
    return paid?.sheet && leftAfter(paid.sheet.shares, paid).leftCents;
  };

  it('is of that partner’s share, and of what they had before', () => {
    const day = soldDay();
    expect(leftOn(day, day.cash(1, '10.00'))).toBe(9_260);
    day.cash(4, '20.00');
    expect(leftOn(day, day.cash(1, '5.00'))).toBe(8_760);
    expect(leftOn(day, 1)).toBe(9_260);
    expect(sellerPayment(day.book, 3)?.earlier.map(({ paymentId }) => paymentId)).toEqual([1, 2]);
  });

  it('names the sheet of then and the one that corrects it; a check of the register has its stub instead', () => {
    const day = soldDay();
    const first = day.cash(1, '10.00');
    const right = { kind: 'sold', price: '115.00', buyerNo: 30, reason: 'misheard' } as const;
    day.must('outcome.correct', { lotId: 3, replacesId: 3, ...right }, 'block');
    day.must('settlement.correct', { saleId: 1, sellerNo: 2, reason: 'misheard' });
    expect(sellerPayment(day.book, first)).toMatchObject({ sheet: { number: 2 }, correctedBy: 3 });
    day.must('check.write', { saleId: 1, sellerNo: 1, firstNumber: 1041 });
    expect(sellerPayment(day.book, 2)).toBeUndefined();
    day.must('payment.void', { paymentId: first, reason: 'not paid' });
    expect(sellerPayment(day.book, first)).toMatchObject({ voided: 'not paid', worker: 'Ada' });
    expect(sellerPayment(day.book, 3)).toBeUndefined();
    expect(sellerPayment(day.book, 99)).toBeUndefined();
  });
});
