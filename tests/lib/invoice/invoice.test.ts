import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decideInvoice, invoiceSale } from '#lib/invoice/invoice.ts';
import { sumCents } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { buyer, lot, sale, saleFacts, sold, terms, unsold } from '#tests/support/facts.ts';

const own = terms({ premiumPct: rate('2.5'), taxPct: rate('6.5') });
const buyers = [buyer(11), buyer(10, { taxExempt: true }), buyer(9)];

describe('invoiceSale', () => {
  it('adds premium for each lot and tax once, by buyer number', () => {
    const lots = [lot('3', { count: 12 }), lot('2'), lot('1', { donated: true }), lot('4')];
    const outcomes = [sold('3', '7.75', 11), sold('2', '0.35', 11), sold('1', '10.00', 11), unsold('4')];
    const [invoice, ...more] = invoiceSale(saleFacts({ sale: sale({ terms: own }), buyers, lots, outcomes }));
    expect(more).toEqual([]);
    expect(invoice).toMatchObject({
      buyerNo: 11,
      lots: 3,
      amountCents: 10_335,
      premiumCents: 259,
      taxCents: 689,
      totalCents: 11_283,
    });
    expect(
      invoice?.rows.map(({ lotNo, priceCents, amountCents, premiumCents }) => [
        lotNo,
        priceCents,
        amountCents,
        premiumCents,
      ]),
    ).toEqual([
      ['1', 1000, 1000, 25],
      ['2', 35, 35, 1],
      ['3', 775, 9300, 233],
    ]);
  });

  it('bills each buyer for their own lots, by buyer number', () => {
    const lots = [lot('1'), lot('2'), lot('3'), lot('4')];
    const outcomes = [sold('1', '1.00', 11), sold('2', '2.00', 9), sold('3', '4.00', 10), sold('4', '8.00', 9)];
    const billed = invoiceSale(saleFacts({ buyers, lots, outcomes }));
    expect(billed.map(({ buyerNo, amountCents }) => [buyerNo, amountCents])).toEqual([
      [9, 1000],
      [10, 400],
      [11, 100],
    ]);
  });

  it('takes no tax of an exempt buyer', () => {
    const facts = saleFacts({
      sale: sale({ terms: own }),
      buyers,
      lots: [lot('1')],
      outcomes: [sold('1', '100.00', 10)],
    });
    expect(invoiceSale(facts)).toMatchObject([{ buyerNo: 10, premiumCents: 250, taxCents: 0, totalCents: 10_250 }]);
  });

  it('throws for a buyer number that is not there, or a sold lot without a buyer', () => {
    const facts = saleFacts({ lots: [lot('1')], outcomes: [sold('1', '1.00', 77)] });
    expect(() => invoiceSale(facts)).toThrow('number 77');
    expect(() => invoiceSale({ ...facts, outcomes: [{ ...sold('1', '1.00'), buyerNo: null }] })).toThrow(
      'without a price or a buyer',
    );
    expect(() => invoiceSale({ ...facts, outcomes: [{ ...sold('1', '1.00'), priceCents: null }] })).toThrow(
      'without a price or a buyer',
    );
  });

  it('has totals that are the sums of its lines, and one line for each sold lot', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        const invoices = invoiceSale(facts);
        for (const one of invoices) {
          expect(one.lots).toBe(one.rows.length);
          expect(one.lots).toBeGreaterThan(0);
          expect(one.amountCents).toBe(sumCents(one.rows.map(({ amountCents }) => amountCents)));
          expect(one.premiumCents).toBe(sumCents(one.rows.map(({ premiumCents }) => premiumCents)));
          expect(one.totalCents).toBe(one.amountCents + one.premiumCents + one.taxCents);
          if (one.taxExempt) expect(one.taxCents).toBe(0);
        }
        const soldLots = facts.outcomes.filter(({ kind }) => kind === 'sold').length;
        expect(invoices.reduce((so, { lots }) => so + lots, 0)).toBe(soldLots);
      }),
    );
  });
});

describe('issuing an invoice', () => {
  const context = { stage: 'settling', buyerNo: 11, lots: 3, issued: null } as const;
  it.each([
    ['the first of what was bought', {}, 'ok'],
    ['while lots are still sold', { stage: 'selling' as const }, 'ok'],
    ['of nothing', { lots: 0 }, 'missing'],
    ['again, though it still says what was bought', { issued: { number: 7, stillTrue: true } }, 'already'],
    ['of what it no longer says', { issued: { number: 7, stillTrue: false } }, 'ok'],
    ['of nothing any more, in place of one that said more', { lots: 0, issued: { number: 7, stillTrue: false } }, 'ok'],
    ['before the first hammer', { stage: 'intake' as const }, 'wrong_stage'],
    ['after the close', { stage: 'closed' as const }, 'wrong_stage'],
  ])('%s', (_, over, ought) => {
    const decided = decideInvoice({ ...context, ...over });
    expect(decided.ok ? 'ok' : decided.code).toBe(ought);
  });

  it('names the one that still holds', () => {
    expect(decideInvoice({ ...context, issued: { number: 7, stillTrue: true } })).toMatchObject({
      message: expect.stringContaining('Invoice 7 still says what buyer 11 has bought.'),
    });
  });
});
