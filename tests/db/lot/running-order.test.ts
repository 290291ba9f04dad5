import { beforeEach, describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { openLots } from '#db/lot/open-lots.ts';
import { type Hall, openHall } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

let hall: Hall;
const order = () => {
  const sale = saleById(hall.book, hall.saleId);
  return sale ? openLots(hall.book, sale).map(({ lotNo }) => lotNo) : [];
};

beforeEach(() => {
  hall = openHall();
  const { saleId, must } = hall;
  must('seller.register', { saleId, sellerNo: 2, partners: [{ personId: 2 }] });
  for (const sellerNo of [2, 1, 2, 1])
    must('lot.add', { saleId, sellerNo, goods: sellerNo === 1 ? 'raccoon' : 'castor', ...of(sellerNo) });
});

const of = (sellerNo: number) => (sellerNo === 1 ? { count: '3' } : { weight: '4' });

describe('sale.order', () => {
  it.each([
    ['seller', ['2', '4', '1', '3']],
    ['goods', ['1', '3', '2', '4']],
    ['lot', ['1', '2', '3', '4']],
    ['hand', ['1', '2', '3', '4']],
  ] as const)('by %s', (how, ought) => {
    hall.must('sale.order', { saleId: hall.saleId, order: how });
    expect(order()).toEqual(ought);
  });

  it('lets places given before fall away, and keeps the order as it stood by hand', () => {
    const { saleId, must } = hall;
    must('lot.skip', { saleId, lotNo: '1' });
    must('sale.order', { saleId, order: 'hand' });
    expect(order()).toEqual(['2', '3', '4', '1']);
    must('sale.order', { saleId, order: 'lot' });
    expect(order()).toEqual(['1', '2', '3', '4']);
  });

  it('is refused for no sale, another word and a closed sale', () => {
    const { saleId, refuses, refusesUntyped } = hall;
    refuses('sale.order', { saleId: 9, order: 'lot' }, { code: 'unknown', field: 'saleId' });
    refusesUntyped('sale.order', { saleId, order: 'mood' }, { code: 'malformed', field: 'order' });
    closeSale(hall, saleId);
    refuses('sale.order', { saleId, order: 'lot' }, { code: 'wrong_stage' });
  });
});

describe('lot.skip', () => {
  it('sends a lot to the end, and a second one behind it', () => {
    const { saleId, must } = hall;
    must('lot.skip', { saleId, lotNo: '1' });
    must('lot.skip', { saleId, lotNo: '2' });
    expect(order()).toEqual(['3', '4', '1', '2']);
  });

  it('sends a whole seller to the end in the order of the lots', () => {
    hall.must('lot.skip', { saleId: hall.saleId, lotNo: '1', wholeSeller: true });
    expect(order()).toEqual(['2', '4', '1', '3']);
  });
});

describe('lot.place', () => {
  it('puts a lot up now, also one that was skipped', () => {
    const { saleId, must } = hall;
    must('lot.skip', { saleId, lotNo: '1' });
    must('lot.place', { saleId, lotNo: '4' });
    must('lot.place', { saleId, lotNo: '1' });
    expect(order()).toEqual(['1', '4', '2', '3']);
  });

  it('moves a lot before another by hand', () => {
    hall.must('lot.place', { saleId: hall.saleId, lotNo: '4', before: '2' });
    expect(order()).toEqual(['1', '4', '2', '3']);
    expect(saleById(hall.book, hall.saleId)?.runningOrder).toBe('hand');
  });

  it('refuses a lot that is not there or was called', () => {
    const { saleId, must, refuses } = hall;
    must('outcome.record', { saleId, lotNo: '2', kind: 'passed' });
    refuses('lot.place', { saleId, lotNo: '9' }, { code: 'unknown', field: 'lotNo' });
    refuses('lot.place', { saleId, lotNo: '2' }, { code: 'already', field: 'lotNo' });
    refuses('lot.place', { saleId, lotNo: '1', before: '2' }, { code: 'already', field: 'before' });
    refuses('lot.skip', { saleId, lotNo: '2' }, { code: 'already', field: 'lotNo' });
  });
});
