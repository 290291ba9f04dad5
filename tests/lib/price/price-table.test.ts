import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lotNo } from '#lib/lot/number.ts';
import { Decimal } from '#lib/money/decimal.ts';
import { cents } from '#lib/money/money.ts';
import { priceTable, quantileType7, rowOf } from '#lib/price/table.ts';
import type { SaleFacts } from '#lib/sale/facts.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { lot, priced, sale, saleFacts, sold, unsold } from '#tests/support/facts.ts';

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

const once = (values: readonly number[]) => values.map((value) => ({ value, times: 1 }));

describe('quantileType7', () => {
  it.each([
    ['0', '1'],
    ['0.25', '3.25'],
    ['0.5', '5.5'],
    ['0.75', '7.75'],
    ['0.9', '9.1'],
    ['1', '10'],
  ])('of 1 to 10 at %s is %s', (p, value) => {
    expect(quantileType7(once([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]), p).toString()).toBe(value);
  });

  it('of one observation is that one', () => {
    expect(quantileType7([{ value: 775, times: 1 }], '0.25').toString()).toBe('775');
  });

  it('throws for nothing, and for a p that is no part', () => {
    expect(() => quantileType7([], '0.5')).toThrow(RangeError);
    expect(() => quantileType7(once([1, 2]), '1.01')).toThrow(RangeError);
    expect(() => quantileType7(once([1, 2]), '-0.01')).toThrow(RangeError);
  });

  it('does not lay pieces out: two lots of a thousand million pieces each are two observations', () => {
    const vast = [
      { value: 100, times: 1_000_000_000 },
      { value: 200, times: 1_000_000_000 },
    ];
    expect(quantileType7(vast, '0.25').toString()).toBe('100');
    expect(quantileType7(vast, '0.5').toString()).toBe('150');
    expect(quantileType7(vast, '0.75').toString()).toBe('200');
  });

  const anyLots = fc.array(
    fc.record({ value: fc.integer({ min: 0, max: 50 }), times: fc.integer({ min: 1, max: 12 }) }),
    {
      minLength: 1,
      maxLength: 12,
    },
  );
  const anyP = fc.integer({ min: 0, max: 1000 }).map((thousandths) => new Decimal(thousandths).dividedBy(1000));

  it('of lots is that of their pieces one by one, however they are lotted', () => {
    fc.assert(
      fc.property(anyLots, anyP, (lots, p) => {
        const sorted = [...lots].sort((a, b) => a.value - b.value);
        const pieces = once(sorted.flatMap(({ value, times }) => Array.from({ length: times }, () => value)));
        expect(quantileType7(sorted, p).equals(quantileType7(pieces, p))).toBe(true);
      }),
    );
  });

  it('rises with p, from the low to the high', () => {
    fc.assert(
      fc.property(anyLots, anyP, anyP, (lots, a, b) => {
        const sorted = [...lots].sort((x, y) => x.value - y.value);
        const [less, more] = a.lessThan(b) ? [a, b] : [b, a];
        expect(quantileType7(sorted, less).lessThanOrEqualTo(quantileType7(sorted, more))).toBe(true);
        expect(quantileType7(sorted, 0).toNumber()).toBe(sorted[0]?.value);
        expect(quantileType7(sorted, 1).toNumber()).toBe(sorted.at(-1)?.value);
      }),
    );
  });
});

/** The average of lots at these prices for a piece, so many pieces each. */
const averageOf = (lots: readonly { value: number; times: number }[]) => rowOf(lots.map(priced))[0]?.averageCents;

describe('the average', () => {
  it('counts each price as often as it was paid', () => {
    expect(
      averageOf([
        { value: 1, times: 3 },
        { value: 5, times: 1 },
      ]),
    ).toBe(2);
    // Half a cent: 15 and 16 make 15.5.
    expect(averageOf(once([15, 16]))).toBe(16);
    expect(rowOf([])).toEqual([]);
  });
  it('lies between the least and the greatest, and does not mind the order', () => {
    const anyLots = fc.array(
      fc.record({ value: fc.integer({ min: -50, max: 50 }), times: fc.integer({ min: 1, max: 12 }) }),
      { minLength: 1 },
    );
    fc.assert(
      fc.property(anyLots, (lots) => {
        const average = averageOf(lots);
        const values = lots.map(({ value }) => value);
        expect(average).toBeGreaterThanOrEqual(Math.min(...values));
        expect(average).toBeLessThanOrEqual(Math.max(...values));
        expect(averageOf([...lots].reverse())).toBe(average);
      }),
    );
  });
});
