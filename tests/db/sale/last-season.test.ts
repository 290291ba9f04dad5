import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { broughtInWords, lastSeason } from '#db/sale/goods.ts';
import { GOODS, type Hall, openHall, SALE } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

/** A closed sale with three raccoon lots and one of castor, and the plan of the next year's. */
function twoSeasons(): { hall: Hall; next: number } {
  const hall = openHall();
  const { saleId } = hall;
  const sell = (goods: string, figures: Record<string, string>, price: string) => {
    const { lotNo } = hall.must('lot.add', { saleId, sellerNo: 1, goods, ...figures });
    hall.must('outcome.record', { saleId, lotNo, kind: 'sold', price, buyerNo: 10, answered: ['off_step'] });
  };
  sell('raccoon', { count: '3', section: 'north' }, '8.00');
  sell('raccoon', { count: '1', section: 'south' }, '14.50');
  sell('raccoon', { count: '2', by: 'lot' }, '21.00');
  sell('castor', { weight: '15.5' }, '3.50');
  closeSale(hall, saleId);
  const sale = { ...SALE, name: 'Late Winter Sale 2027', held_on: '2027-02-27', season: '2026-27' };
  return { hall, next: hall.must('sale.plan', { sale, goods: GOODS }).saleId };
}

describe('what goods brought last season', () => {
  const { hall, next } = twoSeasons();
  const rows = () => {
    const sale = saleById(hall.book, next);
    if (!sale) throw new Error('the next sale is not in the book');
    return lastSeason(hall.book, sale);
  };

  it('takes all sections together, a lot by the lot by its pieces', () => {
    // Six pieces at 8.00 8.00 8.00 10.50 10.50 14.50, worked by hand: the median lies between 8.00 and 10.50.
    const words = '2025-26: 8.00 to 14.50 each, median 9.25, 6 sold';
    expect(broughtInWords(rows(), 'raccoon')).toEqual({ piece: words, lot: words, lb: '', oz: '' });
  });

  it('says goods by weight by their unit, and nothing of goods that were not sold', () => {
    expect(broughtInWords(rows(), 'castor').oz).toBe('2025-26: 3.50 to 3.50 an oz, median 3.50, 15.5 oz sold in 1 lot');
    expect(broughtInWords(rows(), 'bobcat').piece).toBe('');
  });

  it('is the same after that sale was reopened and closed, and nothing while it is open', () => {
    const before = rows();
    hall.must('sale.stage', { saleId: hall.saleId, stage: 'settling', reason: 'count' });
    expect(rows()).toEqual([]);
    const answered = ['lots_not_handed'] as const;
    hall.must('sale.stage', { saleId: hall.saleId, stage: 'closed', reason: 'count', answered });
    expect(rows()).toEqual(before);
  });

  it('is nothing at the first sale of a book', () => {
    const sale = saleById(hall.book, hall.saleId);
    expect(sale && lastSeason(hall.book, sale)).toEqual([]);
  });
});
