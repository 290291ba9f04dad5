import { describe, expect, it } from 'vitest';
import { openBookInMemory } from '#db/book/open.ts';
import { type GoodsPrices, pricedSeasons } from '#db/price/season-prices.ts';
import { formatMoney } from '#lib/money/money.ts';
import type { PriceRange } from '#lib/price/range.ts';
import { readTable } from '#tests/support/case-folder.ts';
import { caseFolder, filesIn, importFiles } from '#tests/support/exchange.ts';
import { openHall } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

function cells(range: PriceRange): string[] {
  const { lowCents, p25Cents, medianCents, p75Cents, highCents, averageCents, totalCents } = range;
  const amounts = [lowCents, p25Cents, medianCents, p75Cents, highCents, averageCents, totalCents];
  return [range.measure, String(range.lots), range.quantity, ...amounts.map(formatMoney)];
}

function bySection({ goods, parts }: GoodsPrices): string[][] {
  return parts.map(({ level, value, range }) => {
    expect(level).toBe('section');
    return [goods, value ?? '', ...cells(range)];
  });
}

describe('the prices of a season', () => {
  // The expected tables were worked apart from this program; see tests/cases/README.md.
  it.each(['by-hand', 'sixty-lots'])(
    'are the price table of the worked sale %s, where nothing is withheld',
    (folder) => {
      const book = openBookInMemory();
      importFiles(book, filesIn(caseFolder(folder)));
      const rows = pricedSeasons(book, 1).flatMap(({ season, goods }) =>
        goods.flatMap(bySection).map((row) => [season, ...row]),
      );
      const sorted = rows.sort((a, b) => (a.join('\0') < b.join('\0') ? -1 : 1));
      expect(sorted).toEqual(readTable(folder, 'price_table.csv').slice(1));
      book.close();
    },
  );

  it('withhold what too few stand behind, and say what they are of', () => {
    const book = openBookInMemory();
    importFiles(book, filesIn(caseFolder('by-hand')));
    const [season] = pricedSeasons(book);
    expect(season).toMatchObject({ season: '2025-26', currency: 'USD', fewest: 3 });
    expect(season?.goods.every(({ range, parts }) => range === null && parts.length === 0)).toBe(true);
    book.close();
  });

  it('follow a running sale from lot to lot, and are the same after an entry of something else', () => {
    const hall = openHall();
    const { saleId } = hall;
    expect(pricedSeasons(hall.book, 1)).toEqual([]);
    const sell = (price: string) => {
      const { lotNo } = hall.must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '2' });
      hall.must('outcome.record', { saleId, lotNo, kind: 'sold', price, buyerNo: 10, answered: [] });
      return lotNo;
    };
    sell('8.00');
    const [first] = pricedSeasons(hall.book, 1);
    expect(first?.sales).toMatchObject([{ name: 'Late Winter Sale', heldOn: '2026-02-28', running: true }]);
    sell('9.00');
    expect(pricedSeasons(hall.book, 1)[0]?.goods[0]?.range).toMatchObject({ lots: 2, lowCents: 800, highCents: 900 });
    closeSale(hall, saleId);
    const [closed] = pricedSeasons(hall.book, 1);
    hall.must('person.enrol', { name: 'Eve Fox' });
    expect(pricedSeasons(hall.book, 1)[0]?.goods).toEqual(closed?.goods);
    expect(closed?.sales[0]?.running).toBe(false);
  });

  it('count a corrected price once, passed lots as unsold, and withdrawn ones not at all', () => {
    const hall = openHall();
    const { saleId } = hall;
    const add = () => hall.must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '2' });
    const [sold, passed, withdrawn] = [add(), add(), add()];
    const said = { saleId, lotNo: sold.lotNo, kind: 'sold', price: '8.00', buyerNo: 10 } as const;
    const { outcomeId: replacesId } = hall.must('outcome.record', said);
    hall.must('outcome.record', { saleId, lotNo: passed.lotNo, kind: 'passed' });
    hall.must('lot.withdraw', { lotId: withdrawn.lotId, reason: 'damp' });
    const range = () => pricedSeasons(hall.book, 1)[0]?.goods[0]?.range;
    expect(range()).toMatchObject({ lots: 1, unsold: 1, lowCents: 800 });
    const mended = {
      lotId: sold.lotId,
      replacesId,
      reason: 'misheard',
      kind: 'sold',
      price: '9.00',
      buyerNo: 11,
    } as const;
    hall.must('outcome.correct', mended);
    expect(range()).toMatchObject({ lots: 1, unsold: 1, lowCents: 900, highCents: 900 });
  });
});
