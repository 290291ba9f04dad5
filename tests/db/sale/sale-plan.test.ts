import { describe, expect, it } from 'vitest';
import { GOODS, openHall, rowsOf, SALE } from '#tests/support/hall.ts';

describe('sale.plan', () => {
  const { book, must, refusesUntyped } = openHall();
  const next = { ...SALE, name: 'Next Winter Sale', held_on: '2027-02-27' };
  const { terms } = next;

  it('adds a sale with its terms and its goods, in the stage planned', () => {
    const { saleId } = must('sale.plan', { sale: next, goods: GOODS });
    const row = { stage: 'planned', commission_member_pct: '6', commission_min_cents: 10, no_sale_pct_of_minimum: '2' };
    expect(rowsOf(book).sale?.at(-1)).toMatchObject({ id: saleId, ...row, premium_pct: '5', guests_may_sell: 1 });
    expect(rowsOf(book).goods?.filter((one) => (one as { sale_id: number }).sale_id === saleId)).toHaveLength(3);
    expect(rowsOf(book).commission_override?.at(-1)).toMatchObject({ goods: 'bobcat', member_pct: '3.75' });
  });

  it('keeps its name from year to year', () => {
    const again = { ...SALE, held_on: '2028-02-26', season: '2027-28' };
    expect(must('sale.plan', { sale: again, goods: GOODS })).toHaveProperty('saleId');
  });

  it.each([
    ['a sale that is there', { sale: SALE }, 'taken', 'sale.name'],
    ['goods named twice', { goods: [...GOODS, ...GOODS.slice(0, 1)] }, 'taken', 'goods'],
    ['a commission of other goods', { goods: GOODS.slice(0, 2) }, 'unknown', 'sale.terms'],
    ['a day that is none', { sale: { ...next, held_on: '2027-02-29' } }, 'malformed', 'sale.held_on'],
    ['a region in words', { sale: { ...next, region: 'Wyoming' } }, 'malformed', 'sale.region'],
    ['a currency in words', { sale: { ...next, currency: 'dollars' } }, 'malformed', 'sale.currency'],
    ['a bidding that is none', { sale: { ...next, bidding: 'online' } }, 'malformed', 'sale.bidding'],
    [
      'a rate above all',
      { sale: { ...next, terms: { ...terms, premium_pct: '101' } } },
      'malformed',
      'sale.terms.premium_pct',
    ],
    ['a rate as a number', { sale: { ...next, terms: { ...terms, tax_pct: 6.5 } } }, 'malformed', 'sale.terms.tax_pct'],
    ['half a cent', { sale: { ...next, terms: { ...terms, lot_fee: '0.005' } } }, 'malformed', 'sale.terms.lot_fee'],
    ['a term nobody knows', { sale: { ...next, terms: { ...terms, tip: '1' } } }, 'malformed', 'tip'],
    ['goods by the foot', { goods: [{ goods: 'x', name: 'X', by: 'foot' }] }, 'malformed', 'goods.0.by'],
  ] as const)('refuses %s', (...[, over, code, field]) => {
    refusesUntyped('sale.plan', { sale: { ...next, name: 'Another' }, goods: GOODS, ...over }, { code, field });
  });
});
