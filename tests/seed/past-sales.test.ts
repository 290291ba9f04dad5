import { describe, expect, it } from 'vitest';
import { settlement } from '#db/schema/index.ts';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { negate, sumCents } from '#lib/money/money.ts';
import { priceTable } from '#lib/price/table.ts';
import { saleBalance } from '#lib/report/balance.ts';
import { accountBalances, journalOf } from '#lib/report/journal.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { demoBook } from './demo-book.ts';

const { book, sales } = demoBook();
const past = sales.slice(0, 3);
const table = priceTable(past.map(({ facts }) => facts));

/** What a piece of these goods brought on average, by season in the order of the years. */
function averages(goods: string, section: string): number[] {
  const rows = table.filter((row) => row.goods === goods && row.section === section && row.measure === 'piece');
  expect(rows.map(({ season }) => season)).toEqual(['2023-24', '2024-25', '2025-26']);
  return rows.map(({ averageCents }) => averageCents);
}

describe('all sales', () => {
  it('are of the size that association sales have (common practice, no source)', () => {
    for (const { facts } of sales) {
      const pieces = facts.lots.reduce((so, { count }) => so + (count ?? 0), 0);
      expect(facts.sellers.length, facts.sale.name).toBeGreaterThanOrEqual(30);
      expect(facts.sellers.length, facts.sale.name).toBeLessThanOrEqual(45);
      expect(facts.buyers.length).toBeGreaterThanOrEqual(9);
      expect(facts.lots.length).toBeGreaterThanOrEqual(150);
      expect(facts.lots.length).toBeLessThanOrEqual(220);
      expect(pieces).toBeGreaterThanOrEqual(1000);
      expect(pieces).toBeLessThanOrEqual(2000);
    }
  });
});

describe('the three past sales', () => {
  it('have every lot called, and balance to nothing', () => {
    for (const { facts, stage } of past) {
      expect(stage).toBe('closed');
      expect(facts.outcomes).toHaveLength(facts.lots.length);
      expect(saleBalance(facts).map(({ name, difference }) => [name, difference])).toEqual([
        ['buyers', 0],
        ['sellers', 0],
        ['pieces', 0],
        ['lots', 0],
      ]);
    }
  });

  it('are paid to the cent by every buyer and to every seller, who each have a sheet', () => {
    for (const { facts, id } of past) {
      const balances = [...accountBalances(journalOf(facts))].filter(([account]) => /:(Buyers|Sellers):/.test(account));
      expect(balances.length).toBeGreaterThan(40);
      expect(balances.filter(([, cents]) => cents !== 0)).toEqual([]);
      const sheets = book.db.select().from(settlement).all();
      expect(sheets.filter(({ saleId }) => saleId === id)).toHaveLength(facts.sellers.length);
    }
  });

  it('have somebody who owed more than they got, and paid it in', () => {
    const paidIn = past.flatMap(({ facts }) => {
      const owing = settleSale(facts).filter(({ netCents }) => netCents < 0);
      return owing.map(({ sellerNo, netCents }) => {
        const paid = facts.payments.filter((one) => one.sellerNo === sellerNo && one.direction === 'in');
        return [negate(netCents), sumCents(paid.map(({ amountCents }) => amountCents))];
      });
    });
    expect(paidIn.length).toBeGreaterThan(0);
    for (const [owed, paid] of paidIn) expect(paid).toBe(owed);
  });

  it('show the bad year of raccoon in every section', () => {
    for (const section of ['Mountain', 'Foothills', 'Prairie']) {
      const [before = 0, bad = 0, after = 0] = averages('raccoon', section);
      expect(bad, section).toBeLessThan(before * 0.6);
      expect(bad, section).toBeLessThan(after * 0.6);
    }
  });

  it('have no other kind fall like that', () => {
    const others = ['muskrat', 'coyote', 'fox-red', 'beaver', 'skunk'];
    for (const goods of others) {
      const [first = 0, second = 0] = past.map(({ facts }) => {
        const rows = priceTable({ ...facts, lots: facts.lots.map((lot) => ({ ...lot, section: '' })) });
        return rows.find((row) => row.goods === goods && row.measure === 'piece')?.averageCents ?? 0;
      });
      expect(second, goods).toBeGreaterThan(first * 0.6);
    }
  });

  it('pay more for coyote from the mountains than from the prairie, season after season', () => {
    const mountain = averages('coyote', 'Mountain');
    for (const [at, average] of averages('coyote', 'Prairie').entries()) expect(mountain[at]).toBeGreaterThan(average);
  });

  it('pay more for a better grade', () => {
    const priced = past.flatMap(({ facts }) => {
      const outcomes = new Map(facts.outcomes.map((outcome) => [outcome.lotNo, outcome.priceCents]));
      return facts.lots.map((lot) => ({ ...lot, price: outcomes.get(lot.lotNo) ?? null }));
    });
    const mean = (grade: string) => {
      const prices = priced.flatMap((lot) =>
        lot.goods === 'coyote' && lot.grade === grade && lot.price !== null ? [lot.price] : [],
      );
      return sumCents(prices) / prices.length;
    };
    expect(mean('I')).toBeGreaterThan(mean('II') * 1.1);
    expect(mean('II')).toBeGreaterThan(mean('III') * 1.1);
  });

  it('sell most of what comes, and keep a buyer busy', () => {
    for (const { facts } of past) {
      const sold = facts.outcomes.filter(({ kind }) => kind === 'sold').length;
      expect(sold / facts.lots.length).toBeGreaterThan(0.85);
      expect(facts.outcomes.some(({ kind }) => kind === 'passed')).toBe(true);
      expect(invoiceSale(facts).length).toBeGreaterThanOrEqual(9);
    }
  });
});
