/** The balance of random sales: what is named explains every difference, and what is kept is the journal's income. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cents, negate, sumCents, ZERO } from '#lib/money/money.ts';
import { type CloseContext, type ClosingFacts, decideClose } from '#lib/report/closing-line.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import { accountBalances, journalOf } from '#lib/report/journal.ts';
import { revenueOf, saleRevenue } from '#lib/report/revenue.ts';
import type { SaleFacts } from '#lib/sale/facts.ts';
import type { SheetTotals } from '#lib/settlement/model.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { buyer, lot, money, payment, saleFacts, sold } from '#tests/support/facts.ts';

function closingOf(facts: SaleFacts, over: Partial<ClosingFacts> = {}): ClosingFacts {
  const moves = [
    ...facts.payments
      .filter(({ direction, method }) => direction === 'in' || method !== 'check')
      .map(({ direction, method, amountCents }) => ({
        ...{ line: 1, method },
        amountCents: direction === 'in' ? amountCents : negate(amountCents),
      })),
    ...facts.charges
      .filter(({ how }) => how === 'cash')
      .map(({ amountCents }) => ({ line: 1, method: 'cash' as const, amountCents })),
  ];
  return { facts, sheets: new Map(), invoices: new Map(), drawer: [], moves, ...over };
}

/** The sheets as they would be issued now. */
function allSheets(facts: SaleFacts): ClosingFacts['sheets'] {
  return new Map(
    settleSale(facts).map((one, at) => {
      const { lotsSold, lotsPassed, grossCents, commissionCents, lotFeesCents, noSaleFeesCents } = one;
      const { sellerNumberFeeCents, chargesCents, netCents } = one;
      const totals: SheetTotals = {
        ...{ lotsSold, lotsPassed, grossCents, commissionCents, lotFeesCents, noSaleFeesCents },
        ...{ lotNetsCents: ZERO, sellerNumberFeeCents, chargesCents, netCents },
      };
      return [one.sellerNo, { number: at + 1, totals }];
    }),
  );
}

const READY: CloseContext = { lines: [], drawerOpen: false, unfinished: [], answered: [] };

const lineOf = (closing: ClosingFacts, name: string) => closingLines(closing).find((line) => line.name === name);

describe('the lines of the balance', () => {
  it('are explained to the cent by what they name, with sheets and without', () => {
    fc.assert(
      fc.property(anySale, fc.boolean(), (facts, issued) => {
        for (const line of closingLines(closingOf(facts, issued ? { sheets: allSheets(facts) } : {}))) {
          expect(line.why.reduce((so, { amount }) => so + amount, 0)).toBe(line.difference);
          expect(line.left - line.right).toBe(line.difference);
          expect(line.parts.reduce((so, { amount }) => so + amount, 0)).toBe(line.right);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('of hammer and sheets are at zero once every sheet is issued', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        const closing = closingOf(facts, { sheets: allSheets(facts) });
        for (const name of ['hammer', 'sheets', 'invoices', 'money']) expect(lineOf(closing, name)?.difference).toBe(0);
      }),
      { numRuns: 60 },
    );
  });

  const facts = saleFacts({
    lots: [lot('1', { count: 4 }), lot('2', { count: 3 })],
    outcomes: [sold('1', '10.00')],
    payments: [payment({ buyerNo: 10, amountCents: money('30.00') })],
    buyers: [buyer(10)],
  });

  it('name the lot, the buyer and the seller', () => {
    const words = closingLines(closingOf(facts)).map(({ name, difference, why }) => [
      name,
      difference,
      why.map((one) => one.ref),
    ]);
    expect(words).toEqual([
      ['pieces', 3, ['2']],
      ['lots', 1, ['2']],
      ['hammer', 4000, ['1']],
      ['sheets', 3760, ['1']],
      ['invoices', 0, []],
      ['buyers', 1000, ['10']],
      ['sellers', 3760, ['1']],
      ['money', 0, []],
    ]);
  });

  it('keep the sale open in one sentence each, and an open drawer does too', () => {
    const refused = decideClose({ ...READY, lines: closingLines(closingOf(facts)) });
    expect(refused).toMatchObject({ ok: false, code: 'conflict' });
    expect(refused.ok ? '' : refused.message).toContain('The buyers have paid: 10.00 off (buyer 10 still owes 10.00).');
    expect(decideClose({ ...READY, drawerOpen: true })).toMatchObject({ ok: false, code: 'conflict' });
    expect(decideClose(READY)).toEqual({ ok: true, value: null });
  });

  it('show an invoice that is no longer what was bought', () => {
    const invoices = new Map([[10, { number: 4, totalCents: money('41.00') }]]);
    expect(lineOf(closingOf(facts, { invoices }), 'invoices')).toMatchObject({ difference: 100, why: [{ ref: '10' }] });
  });
});

describe('what the association keeps', () => {
  it('is the income of the journal, its tax and its advances, for any sale', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        const balances = [...accountBalances(journalOf(facts))];
        const of = (start: string) =>
          negate(sumCents(balances.filter(([account]) => account.startsWith(start)).map(([, amount]) => amount)));
        const kept = revenueOf(facts);
        expect(kept.revenueCents).toBe(of('Income:'));
        expect(kept.taxCents).toBe(of('Liabilities:Sales tax'));
        expect(kept.advancesCents).toBe(of('Assets:Advances'));
      }),
      { numRuns: 60 },
    );
  });

  it('by goods adds up to commission, lot and no-sale fees, premium and donated', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        const kept = revenueOf(facts);
        const { commissionCents, lotFeesCents, noSaleFeesCents, premiumCents, donatedCents } = kept;
        const sum = sumCents([commissionCents, lotFeesCents, noSaleFeesCents, premiumCents, donatedCents]);
        expect(sumCents(saleRevenue(facts).byGoods.map(({ revenueCents }) => revenueCents))).toBe(sum);
      }),
      { numRuns: 60 },
    );
    expect(revenueOf(saleFacts()).revenueCents).toBe(cents(0));
  });
});
