import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { currentSale, movesStations, otherOpenSales } from '#db/sale/queries.ts';
import { GOODS, openHall, SALE } from '#tests/support/hall.ts';

/** The sale of the hall is being sold; another one is planned for a later day. */
function twoSales() {
  const hall = openHall();
  const { book, must, saleId } = hall;
  const later = { ...SALE, name: 'Evening Sale', held_on: '2026-03-28' };
  const next = must('sale.plan', { sale: later, goods: GOODS }).saleId;
  const to = (id: number, stage: 'intake' | 'selling' | 'settling') =>
    must('sale.stage', { saleId: id, stage, reason: '' });
  const names = () => [
    currentSale(book)?.name,
    otherOpenSales(book, { id: saleId })
      .map(({ name }) => name)
      .join(),
  ];
  return { ...hall, next, to, names };
}

describe('two sales that are open at once', () => {
  it('leave the stations at the one that is being sold while the other takes in', () => {
    const { book, next, to, names } = twoSales();
    expect(movesStations(book, { id: next }, 'intake')).toBe('');
    to(next, 'intake');
    expect(names()).toEqual(['Late Winter Sale', 'Evening Sale']);
  });

  it('say before a start or an end of bidding which sale the stations open then', () => {
    const { book, saleId, next, to, names } = twoSales();
    to(next, 'intake');
    const words = 'Every station then opens Evening Sale and leaves Late Winter Sale.';
    expect(movesStations(book, { id: next }, 'selling')).toBe(words);
    expect(movesStations(book, { id: saleId }, 'settling')).toBe(words);
    // One that is closed is left without a word.
    expect(movesStations(book, { id: saleId }, 'closed')).toBe('');
    to(saleId, 'settling');
    expect(names()).toEqual(['Evening Sale', 'Evening Sale']);
    expect(movesStations(book, { id: saleId }, 'selling')).toBe(
      'Every station then opens Late Winter Sale and leaves Evening Sale.',
    );
    expect(saleById(book, next)?.stage).toBe('intake');
  });
});
