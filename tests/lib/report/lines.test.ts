/** The balance of random sales: what is named explains every difference, and what is kept is the journal's income. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addCents, cents, negate, sumCents, sumOf, ZERO } from '#lib/money/money.ts';
import {
  type CloseContext,
  type ClosingFacts,
  type ClosingLine,
  decideClose,
  unfinishedOf,
} from '#lib/report/closing-line.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import { accountBalances, journalOf } from '#lib/report/journal.ts';
import { type Revenue, revenueOf, revenueWords, saleRevenue } from '#lib/report/revenue.ts';
import type { SaleFacts } from '#lib/sale/facts.ts';
import { CLOSE_QUESTIONS } from '#lib/sale/stage.ts';
import { isHandedOver } from '#lib/seller/account.ts';
import type { SheetTotals } from '#lib/settlement/model.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { buyer, lot, money, payment, saleFacts, sold, taking } from '#tests/support/facts.ts';

const NOBODY: ReadonlySet<number> = new Set();
const NOTHING_DONE = {
  ...{ sheets: new Map(), invoices: new Map(), handed: new Map() },
  ...{ oldSheets: NOBODY, oldInvoices: NOBODY, unpaid: NOBODY },
};

function closingOf(facts: SaleFacts, over: Partial<ClosingFacts> = {}): ClosingFacts {
  const moves = [
    ...facts.payments
      .filter(({ direction, method }) => direction === 'in' || method !== 'check')
      .filter(isHandedOver)
      .map(({ direction, method, amountCents: amount }) => ({
        ...{ line: 1, method, amountCents: direction === 'in' ? amount : negate(amount) },
      })),
    ...facts.charges
      .filter(({ how }) => how === 'cash')
      .map(({ amountCents }) => ({ line: 1, method: 'cash' as const, amountCents })),
    ...facts.takings.map(({ method, amountCents }) => ({ line: 1, method, amountCents })),
  ];
  return { facts, ...NOTHING_DONE, drawer: [], moves, ...over };
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

describe('what is unfinished', () => {
  const billed = { number: 1, totalCents: money('10.00') };
  const words = (closing: ClosingFacts, lines: readonly ClosingLine[] = []) =>
    unfinishedOf(closing, lines).map(({ title, ask }) => `${title} ${ask}`);
  /** Lot 1 of each for 10.00: buyers by number, and what they have. */
  const boughtBy = (numbers: readonly number[], over: Partial<ClosingFacts> = {}) => {
    const lots = numbers.map((_, at) => lot(String(at + 1), { count: 1 }));
    const outcomes = numbers.map((buyerNo, at) => sold(String(at + 1), '10.00', buyerNo));
    const own = saleFacts({ lots, outcomes, buyers: [...numbers, 99].map((buyerNo) => buyer(buyerNo)) });
    const handed = new Map(numbers.map((buyerNo, at) => [lot(String(at + 1)).lotNo, buyerNo]));
    const invoices = new Map(numbers.map((buyerNo) => [buyerNo, billed]));
    return closingOf(own, { sheets: allSheets(own), handed, invoices, ...over });
  };

  it('is nothing where everybody is billed, settled, paid and has their lots', () => {
    expect(words(boughtBy([3, 7]))).toEqual([]);
  });

  it('names a handful of numbers and counts the others', () => {
    const says = (many: readonly number[]) => words(boughtBy(many, { invoices: new Map() }));
    const told = (numbers: string) => [
      `Buyers ${numbers} have bought and have no invoice. Issue what is missing at the Till.`,
    ];
    expect(says([3, 7, 12, 13, 14, 20, 21, 22, 23])).toEqual(told('3, 7, 12, 13, 14 and 4 more'));
    expect(says([3, 7, 12, 13, 14, 20])).toEqual(told('3, 7, 12, 13, 14 and 1 more'));
    expect(says([3, 7, 12, 13, 14])).toEqual(told('3, 7, 12, 13 and 14'));
  });

  it('is said in the order in which it is put right, and asked only where the report stays true', () => {
    const old = { oldSheets: new Set([1]), oldInvoices: new Set([4]) };
    const handed = new Map([[lot('2').lotNo, 4]]);
    const found = unfinishedOf(boughtBy([3, 4], { ...old, handed, unpaid: new Set([2]) }), []);
    const bare = unfinishedOf(boughtBy([3], { sheets: new Map() }), []);
    expect([...found, ...bare].map(({ name, question, why }) => [name, question !== null, why[0]?.words])).toEqual([
      ['invoice_changed', false, 'buyer 4: the invoice is no longer what was bought; issue another'],
      ['sheet_changed', false, 'seller 1: the sheet is no longer right; issue the correction sheet'],
      ['partner_unpaid', false, 'seller 2: one partner is not paid in full, another too much'],
      ['lots_not_handed', true, 'buyer 3 has not picked up lot 1'],
      ['sellers_without_sheet', true, 'seller 1 had lots called and has no sheet'],
    ]);
    const answered = CLOSE_QUESTIONS;
    expect(decideClose({ ...READY, unfinished: found, answered })).toMatchObject({ code: 'conflict' });
    const unfinished = [...found, ...bare].filter(({ question }) => question !== null);
    expect(decideClose({ ...READY, unfinished })).toMatchObject({ code: 'needs_answer', field: 'lots_not_handed' });
    const next = { code: 'needs_answer', field: 'sellers_without_sheet' };
    expect(decideClose({ ...READY, unfinished, answered: ['lots_not_handed'] })).toMatchObject(next);
    expect(decideClose({ ...READY, unfinished, answered })).toMatchObject({ ok: true });
  });

  it('is not said twice where a line of the balance names it', () => {
    const closing = boughtBy([10], {
      ...{ sheets: new Map(), unpaid: new Set([1]), oldInvoices: new Set([10]) },
      invoices: new Map([[10, { ...billed, totalCents: money('9.00') }]]),
    });
    expect(words(closing)).toHaveLength(3);
    expect(words(closing, closingLines(closing))).toEqual([]);
  });
});

describe('what the association keeps', () => {
  it('is the income of the journal, its tax and its advances, for any sale', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        const balances = [...accountBalances(journalOf(facts))];
        const of = (start: string) =>
          negate(sumCents(balances.filter(([account]) => account.startsWith(start)).map(([, amount]) => amount)));
        const kept = revenueOf(facts, ZERO);
        expect(kept.revenueCents).toBe(addCents(of('Income:'), of('Expenses:')));
        expect(kept.taxCents).toBe(of('Liabilities:Sales tax'));
        // What was handed out has come back, by the sheets or in cash.
        const cash = sumOf(
          facts.charges.filter(({ kind, how }) => kind === 'advance' && how === 'cash'),
          'amountCents',
        );
        expect(cash).toBe(of('Assets:Advances'));
      }),
      { numRuns: 60 },
    );
  });

  it('by goods adds up to commission, lot and no-sale fees, premium and donated', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        const kept = revenueOf(facts, ZERO);
        const { commissionCents, lotFeesCents, noSaleFeesCents, premiumCents, donatedCents } = kept;
        const sum = sumCents([commissionCents, lotFeesCents, noSaleFeesCents, premiumCents, donatedCents]);
        expect(sumCents(saleRevenue(facts, ZERO).byGoods.map(({ revenueCents }) => revenueCents))).toBe(sum);
      }),
      { numRuns: 60 },
    );
    expect(revenueOf(saleFacts(), ZERO).revenueCents).toBe(cents(0));
  });

  it('of takings stands by kind, and a kind of which there is none is not listed', () => {
    const kept = revenueOf(
      saleFacts({
        takings: [
          taking({ amountCents: money('41.00') }),
          taking({ amountCents: money('9.00'), method: 'check' }),
          taking({ kind: 'food', amountCents: money('17.25') }),
        ],
      }),
      ZERO,
    );
    // 41.00 + 9.00 of raffle and 17.25 of food.
    expect(kept).toMatchObject({ raffleCents: 5000, foodCents: 1725, doorCents: 0, revenueCents: 6725 });
    const named = (...sales: Revenue[]) => revenueWords(...sales).map(([, words]) => words);
    expect(named(kept)).toEqual(expect.arrayContaining(['Raffle', 'Food', 'Dues']));
    expect(named(kept)).not.toContain('Door');
    expect(named(revenueOf(saleFacts(), ZERO))).not.toContain('Raffle');
    expect(named(revenueOf(saleFacts(), ZERO), kept)).toContain('Raffle');
  });
});
