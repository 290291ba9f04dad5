import { GOODS, type Hall, openHall, SALE } from '#tests/support/hall.ts';

/** Two sales of two years that run at once, so that pieces go home from one and come back to the other. */
export function twoSales(): Hall {
  const hall = openHall();
  const sale = { ...SALE, name: 'Next Winter Sale', held_on: '2027-02-27' };
  const saleId = hall.must('sale.plan', { sale, goods: GOODS }).saleId;
  hall.must('sale.stage', { saleId, stage: 'intake', reason: '' });
  hall.must('seller.register', { saleId, partners: [{ personId: 1 }] });
  hall.must('buyer.register', { saleId, buyerNo: 10, personId: 2, cleared: true });
  hall.must('sale.stage', { saleId, stage: 'selling', reason: '' });
  return hall;
}

/** Lots 1 to 4 of the hall's sale sold to buyers 10 and 11, so that the till has something to do from the first act on. */
export function soldSale(): Hall {
  const hall = twoSales();
  for (const count of ['3', '11', '3', '11']) hall.must('lot.add', { saleId: 1, sellerNo: 1, goods: 'raccoon', count });
  for (const [at, buyerNo] of [10, 11, 10, 11].entries()) {
    hall.must('outcome.record', { saleId: 1, lotNo: String(at + 1), kind: 'sold', price: '7.25', buyerNo });
  }
  return hall;
}
