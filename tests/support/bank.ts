/** A sale whose buyers and sellers paid and were paid by check, before anything went to the bank. */
import { type Hall, openHall } from './hall.ts';

/**
 * Lot 1 of seller 1 brings 100.00 from buyer 10, lot 2 of seller 2 brings 200.00 from buyer 11; each bill has 5 % premium
 * and 6.5 % tax: 111.83 and 223.65. Both pay by check. Seller 1 is a member and gets 100.00 − 6.00 − 0.25 − 5.00 = 88.75
 * by check 501; seller 2 is one too, by dues of 30.00 in cash that lie outside the drawer, and gets
 * 200.00 − 12.00 − 0.25 − 5.00 = 182.75 by check 502.
 */
export function paidHall(file?: string): Hall {
  const hall = openHall(file === undefined ? {} : { file });
  const { saleId, must } = hall;
  must('person.enrol', { name: 'Eve Frost' });
  must('seller.register', { saleId, sellerNo: 2, partners: [{ personId: 4 }] });
  must('dues.take', { saleId, personId: 4, sellerNo: null, how: 'cash', amount: '30.00' });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
  must('lot.add', { saleId, sellerNo: 2, goods: 'raccoon', count: '20' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
  must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '10.00', buyerNo: 11 });
  const check = { saleId, direction: 'in', method: 'check' } as const;
  must('payment.record', { ...check, buyerNo: 10, amount: '111.83', reference: '7001' });
  must('payment.record', { ...check, buyerNo: 11, amount: '223.65', reference: '88' });
  must('settlement.issue', { saleId, sellerNo: null, seen: 2 });
  must('check.write', { saleId, sellerNo: null, firstNumber: 501, seen: 2 });
  return hall;
}

/** The payments of buyers 10 and 11. */
export const [OF_TEN, OF_ELEVEN] = [2, 3] as const;
