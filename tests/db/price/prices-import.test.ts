import { describe, expect, it } from 'vitest';
import { openBookInMemory } from '#db/book/open.ts';
import type { InputOf } from '#db/commands.ts';
import { listedSeasons, priceListOf } from '#db/price/lists.ts';
import { hallOf, openHall } from '#tests/support/hall.ts';

type Row = InputOf<'prices.import'>['rows'][number];
const row = (line: number, over: Row[1] = {}): Row => [
  line,
  { season: '1998-99', goods: 'mink', count: '40', price: '9.50', ...over },
];

describe('a plain price list', () => {
  it('goes into the book with its words, pieces and cents', () => {
    const { book, must } = hallOf(openBookInMemory(), 0);
    const rows = [row(2, { section: 'west', size: 'L', grade: 'I' }), row(3, { season: '1999-00' })];
    expect(must('prices.import', { file: 'old.csv', rows })).toEqual({ rows: 2, seasons: ['1998-99', '1999-00'] });
    const [first] = listedSeasons(book);
    expect(first && priceListOf(book, first)).toMatchObject([
      { goods: 'mink', section: 'west', size: 'L', grade: 'I', count: 40, priceCents: 950 },
    ]);
  });

  it('is refused with every problem at its place, and nothing of it is kept', () => {
    const hall = hallOf(openBookInMemory(), 0);
    const rows = [row(2), row(3, { price: '9.505' }), row(4, { count: '0', price: 'ten' }), row(5, { season: '' })];
    hall.refuses('prices.import', { file: 'old.csv', rows }, { code: 'malformed', field: 'old.csv:3 price' });
    const answer = hall.give('prices.import', { file: 'old.csv', rows });
    const fields = answer.ok ? [] : [answer, ...(answer.also ?? [])].map(({ field }) => field);
    expect(fields).toEqual(['old.csv:3 price', 'old.csv:4 count', 'old.csv:4 price', 'old.csv:5 season']);
    hall.refuses('prices.import', { file: 'old.csv', rows: [] }, { code: 'missing', field: 'old.csv:1 -' });
  });

  it('is no second source of a season whose sale is in the book', () => {
    const hall = openHall();
    const rows = [row(2), row(3, { season: '2025-26' }), row(4, { season: '2025-26' })];
    hall.refuses('prices.import', { file: 'old.csv', rows }, { code: 'taken', field: 'old.csv:3 season' });
  });

  it('stands until it is replaced in so many words; then only the newer rows stand', () => {
    const hall = hallOf(openBookInMemory(), 0);
    hall.must('prices.import', { file: 'old.csv', rows: [row(2), row(3)] });
    const better = { file: 'better.csv', rows: [row(2, { price: '8.00' })] };
    hall.refuses('prices.import', better, { code: 'already', field: 'better.csv:2 season' });
    hall.must('prices.import', { ...better, replaces: true });
    const [season] = listedSeasons(hall.book);
    expect(season && priceListOf(hall.book, season).map(({ priceCents }) => priceCents)).toEqual([800]);
  });
});

describe('the fewest sellers', () => {
  it('are set as a whole number from 1 to 99', () => {
    const hall = hallOf(openBookInMemory(), 0);
    expect(hall.must('prices.fewest', { fewest: 2 })).toEqual({ fewest: 2 });
    for (const fewest of [0, 100, 2.5]) {
      hall.refuses('prices.fewest', { fewest }, { code: 'malformed', field: 'fewest' });
    }
  });
});
