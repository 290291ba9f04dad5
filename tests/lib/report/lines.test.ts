/** The balance of random sales: what is named explains every difference, and what is kept is the journal's income. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cents, negate, sumCents, ZERO } from '#lib/money/money.ts';
import {
  type BuyerProgress,
  type CloseContext,
  type ClosingFacts,
  type ClosingLine,
  decideClose,
  type Progress,
  type SellerProgress,
  unfinishedInWords,
  unfinishedOf,
} from '#lib/report/closing-line.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import { accountBalances, journalOf } from '#lib/report/journal.ts';
import { revenueOf, saleRevenue } from '#lib/report/revenue.ts';
import type { SaleFacts } from '#lib/sale/facts.ts';
import { CLOSE_QUESTIONS } from '#lib/sale/stage.ts';
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

describe('what is unfinished', () => {
  const buyerOf = (buyerNo: number, over: Partial<BuyerProgress> = {}): BuyerProgress => ({
    ...{ buyerNo, bought: [lot('1').lotNo], notHanded: [], invoice: { number: buyerNo, stillTrue: true } },
    ...over,
  });
  const sellerOf = (sellerNo: number, over: Partial<SellerProgress> = {}): SellerProgress => ({
    ...{ sellerNo, lotsCalled: 1, sheetNumber: sellerNo, changed: false, unpaid: false },
    ...over,
  });
  const words = (progress: Partial<Progress>, lines: readonly ClosingLine[] = []) =>
    unfinishedOf({ buyers: [], sellers: [], ...progress }, lines).map(unfinishedInWords);

  it('is nothing where everybody is billed, settled, paid and has their lots', () => {
    const idle = buyerOf(4, { bought: [], invoice: null });
    const late = sellerOf(9, { lotsCalled: 0, sheetNumber: null });
    expect(words({ buyers: [buyerOf(3), idle], sellers: [sellerOf(1), late] })).toEqual([]);
  });

  it('names a handful of numbers and counts the others', () => {
    const many = [3, 7, 12, 13, 14, 20, 21, 22, 23].map((buyerNo) => buyerOf(buyerNo, { invoice: null }));
    const [five, six] = [many.slice(0, 5), many.slice(0, 6)];
    const says = (numbers: string) => [
      `Buyers ${numbers} have bought and have no invoice. Issue what is missing at the Till.`,
    ];
    expect(words({ buyers: many })).toEqual(says('3, 7, 12, 13, 14 and 4 more'));
    expect(words({ buyers: six })).toEqual(says('3, 7, 12, 13, 14 and 1 more'));
    expect(words({ buyers: five })).toEqual(says('3, 7, 12, 13 and 14'));
  });

  it('is said in the order in which it is put right, and asked only where the report stays true', () => {
    const found = unfinishedOf(
      {
        buyers: [buyerOf(3, { notHanded: [lot('1').lotNo] }), buyerOf(4, { invoice: { number: 2, stillTrue: false } })],
        sellers: [sellerOf(1, { changed: true }), sellerOf(2, { unpaid: true }), sellerOf(5, { sheetNumber: null })],
      },
      [],
    );
    expect(found.map(({ name, question, left }) => [name, question !== null, left.map((one) => one.words)])).toEqual([
      ['invoice_changed', false, ['buyer 4: invoice 2 is no longer what was bought; issue the correcting one']],
      ['sheet_changed', false, ['seller 1: sheet 1 is no longer right; issue the correction sheet']],
      ['partner_unpaid', false, ['seller 2: one partner is not paid in full, another too much']],
      ['lots_not_handed', true, ['buyer 3: lot 1 not handed over']],
      ['sellers_without_sheet', true, ['seller 5 had lots called and has no sheet']],
    ]);
    const refused = decideClose({ ...READY, unfinished: found, answered: CLOSE_QUESTIONS });
    expect(refused).toMatchObject({ code: 'conflict' });
    const asked = found.filter(({ question }) => question !== null);
    expect(decideClose({ ...READY, unfinished: asked })).toMatchObject({
      code: 'needs_answer',
      field: 'lots_not_handed',
    });
    const one = decideClose({ ...READY, unfinished: asked, answered: ['lots_not_handed'] });
    expect(one).toMatchObject({ code: 'needs_answer', field: 'sellers_without_sheet' });
    expect(decideClose({ ...READY, unfinished: asked, answered: CLOSE_QUESTIONS })).toMatchObject({ ok: true });
  });

  it('is not said twice where a line of the balance names it', () => {
    const own = saleFacts({ lots: [lot('1', { count: 4 })], outcomes: [sold('1', '10.00')], buyers: [buyer(10)] });
    const lines = closingLines(closingOf(own, { invoices: new Map([[10, { number: 1, totalCents: money('9.00') }]]) }));
    const progress = {
      buyers: [buyerOf(10, { invoice: { number: 1, stillTrue: false } })],
      sellers: [sellerOf(1, { sheetNumber: null, unpaid: true })],
    };
    expect(words(progress)).toHaveLength(3);
    expect(words(progress, lines)).toEqual([]);
    const told = decideClose({ ...READY, lines });
    expect(told).toMatchObject({ code: 'conflict' });
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
