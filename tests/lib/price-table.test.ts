import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SaleFacts } from '#lib/facts.ts';
import { lotNo } from '#lib/lot-number.ts';
import { cents } from '#lib/money.ts';
import { priceTable } from '#lib/price-table.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { lot, sale, saleFacts, sold, unsold } from '#tests/support/facts.ts';

describe('priceTable', () => {
  it('takes each piece as one observation, and a lot by the lot as its pieces', () => {
    const lots = [
      lot('1', { count: 3 }),
      lot('2', { by: 'lot', count: 4 }),
      lot('3', { count: 9 }),
      lot('4', { count: 9 }),
    ];
    const outcomes = [sold('1', '10.00'), sold('2', '10.01'), unsold('3')];
    expect(priceTable(saleFacts({ lots, outcomes }))).toEqual([
      {
        season: '2025-26',
        goods: 'raccoon',
        section: '',
        measure: 'piece',
        lots: 2,
        quantity: '7',
        quantityThousandths: 7000,
        lowCents: 250,
        p25Cents: 250,
        medianCents: 250,
        p75Cents: 1000,
        highCents: 1000,
        // 40.01 over 7 pieces, not the mean of the two prices.
        averageCents: 572,
        totalCents: 4001,
      },
    ]);
  });

  it('takes each lot by weight as one observation, and rounds quantiles at the end', () => {
    const pounds = (no: string, weightThousandths: number) =>
      lot(no, { by: 'lb', goods: 'deer-hide', weightThousandths });
    const facts = saleFacts({
      lots: [pounds('1', 34_620), pounds('2', 1461)],
      outcomes: [sold('1', '0.50'), sold('2', '1.50')],
    });
    expect(priceTable(facts)).toMatchObject([
      {
        measure: 'lb',
        lots: 2,
        quantity: '36.081',
        lowCents: 50,
        p25Cents: 75,
        medianCents: 100,
        averageCents: 54,
        totalCents: 1950,
      },
    ]);
  });

  it('keeps pieces, pounds and ounces of the same goods apart, as well as sections, sales and seasons', () => {
    const castor = (no: string, by: 'lb' | 'oz' | 'piece') => lot(no, { goods: 'castor', by, weightThousandths: 1000 });
    const facts = saleFacts({
      lots: [
        castor('1', 'piece'),
        castor('2', 'oz'),
        castor('3', 'lb'),
        lot('4', { section: 'west' }),
        lot('5', { section: 'East' }),
      ],
      outcomes: ['1', '2', '3', '4', '5'].map((no) => sold(no, '1.00')),
    });
    const before = { ...facts, sale: sale({ season: '2024-25' }), lots: facts.lots.slice(3) };
    expect(priceTable([facts, before]).map((row) => [row.season, row.goods, row.section, row.measure])).toEqual([
      ['2024-25', 'raccoon', 'East', 'piece'],
      ['2024-25', 'raccoon', 'west', 'piece'],
      ['2025-26', 'castor', '', 'lb'],
      ['2025-26', 'castor', '', 'oz'],
      ['2025-26', 'castor', '', 'piece'],
      ['2025-26', 'raccoon', 'East', 'piece'],
      ['2025-26', 'raccoon', 'west', 'piece'],
    ]);
  });

  it('counts two sales of one season together', () => {
    const one = saleFacts({ lots: [lot('1')], outcomes: [sold('1', '1.00')] });
    const two = saleFacts({ lots: [lot('1')], outcomes: [sold('1', '2.00')] });
    expect(priceTable([one, two])).toMatchObject([{ lots: 2, lowCents: 100, medianCents: 150, highCents: 200 }]);
  });

  it('is the same however the pieces are lotted', () => {
    const anyPieces = fc.array(
      fc.record({ price: fc.integer({ min: 0, max: 3000 }), count: fc.integer({ min: 1, max: 8 }) }),
      { minLength: 1, maxLength: 10 },
    );
    const lotted = (pieces: readonly { price: number; count: number }[]): SaleFacts => {
      const numbered = pieces.map((piece, at) => ({ ...piece, no: String(at + 1) }));
      return saleFacts({
        lots: numbered.map(({ no, count }) => lot(no, { count })),
        outcomes: numbered.map(({ no, price }) => ({ ...sold(no, '0'), lotNo: lotNo(no), priceCents: cents(price) })),
      });
    };
    fc.assert(
      fc.property(anyPieces, (pieces) => {
        const apart = pieces.flatMap(({ price, count }) => Array.from({ length: count }, () => ({ price, count: 1 })));
        const [together] = priceTable(lotted(pieces));
        const [single] = priceTable(lotted(apart));
        expect({ ...together, lots: 0 }).toEqual({ ...single, lots: 0 });
      }),
    );
  });

  it('rises from low to high, and its totals are the sold amounts', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        const rows = priceTable(facts);
        for (const row of rows) {
          const range = [row.lowCents, row.p25Cents, row.medianCents, row.p75Cents, row.highCents];
          expect(range).toEqual([...range].sort((a, b) => a - b));
        }
        const soldLots = facts.outcomes.filter(({ kind }) => kind === 'sold').length;
        expect(rows.reduce((so, { lots }) => so + lots, 0)).toBe(soldLots);
      }),
    );
  });
});
