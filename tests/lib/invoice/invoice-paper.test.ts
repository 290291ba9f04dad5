import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuyerFile } from '#lib/buyer/buyer.ts';
import { stillTrue } from '#lib/invoice/change.ts';
import { invoicePaper } from '#lib/invoice/paper.ts';
import { cents, formatMoney } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';
import { ASSOCIATION, person, STAMP } from '#tests/papers/support/sheets.ts';
import { readCase, readTable } from '#tests/support/case-folder.ts';
import { buyer, goods, lot, money, payment, sale, seller, sold, terms } from '#tests/support/facts.ts';

function file(over: Partial<BuyerFile> = {}): BuyerFile {
  return {
    association: ASSOCIATION,
    sale: sale({ terms: terms({ premiumPct: rate('5'), taxPct: rate('6.5') }) }),
    goods: [goods('raccoon', { name: 'Raccoon' })],
    people: [person('P1'), person('B10')],
    sellers: [seller(1)],
    buyer: { ...buyer(10), licenceRegion: '', licenceExpires: null },
    lots: [],
    outcomes: [],
    tags: [],
    payments: [],
    ...over,
  };
}

/** A file with a lot for each price, numbered from 1. */
function bought(prices: readonly number[], over: Partial<BuyerFile> = {}): BuyerFile {
  const lots = prices.map((_, at) => ({ ...lot(String(at + 1), { count: 3 }), takenIn: '' }));
  const outcomes = prices.map((price, at) => sold(String(at + 1), formatMoney(cents(price))));
  return file({ lots, outcomes, ...over });
}

const sum = (amounts: readonly number[]) => amounts.reduce((so, one) => so + one, 0);
const prices = fc.array(fc.integer({ min: 1, max: 50_000 }), { maxLength: 6 });

describe('an invoice', () => {
  it.each(['by-hand', 'sixty-lots'])('comes to what the worked sale %s says of every buyer', (folder) => {
    const { facts, people } = readCase(folder);
    const papers = facts.buyers.map((one) => {
      const outcomes = facts.outcomes.filter(({ buyerNo }) => buyerNo === one.buyerNo);
      const own = new Set(outcomes.map(({ lotNo }) => lotNo));
      const lots = facts.lots.filter(({ lotNo }) => own.has(lotNo)).map((row) => ({ ...row, takenIn: '' }));
      const who = { ...one, licenceRegion: '', licenceExpires: null };
      const { sale: held, goods: kinds, sellers } = facts;
      const all = { people, sale: held, goods: kinds, sellers };
      return invoicePaper(file({ ...all, buyer: who, lots, outcomes }), STAMP);
    });
    const rows = papers
      .filter(({ lots }) => lots.length > 0)
      .map(({ buyer: who, totals }) => [
        ...[String(who.buyerNo), String(totals.lots), formatMoney(totals.amountCents)],
        ...[formatMoney(totals.premiumCents), formatMoney(totals.taxCents), formatMoney(totals.totalCents)],
      ]);
    expect(rows).toEqual(readTable(folder, 'invoices.csv').slice(1));
  });

  it('adds up in its steps and against what was paid', () => {
    fc.assert(
      fc.property(prices, fc.boolean(), fc.integer({ min: 0, max: 100_000 }), (own, taxExempt, paid) => {
        const who = { ...buyer(10, { taxExempt, exemptNo: 'TX' }), licenceRegion: '', licenceExpires: null };
        const payments = paid > 0 ? [payment({ buyerNo: 10, amountCents: cents(paid) })] : [];
        const { steps, totals, lots } = invoicePaper(bought(own, { buyer: who, payments }), STAMP);
        expect(sum(steps.slice(0, -1).map(({ effectCents }) => effectCents))).toBe(totals.totalCents);
        expect(sum(lots.map(({ premium }) => premium.cents))).toBe(totals.premiumCents);
        expect(totals.totalCents - paid).toBe(totals.owingCents);
        if (taxExempt) expect(totals.taxCents).toBe(0);
      }),
    );
  });

  it('is corrected by as much as it was wrong, and is true again after', () => {
    fc.assert(
      fc.property(prices, prices, (before, now) => {
        const old = invoicePaper(bought(before), STAMP);
        const fresh = invoicePaper(bought(now), { ...STAMP, number: 2 }, old);
        const [lots, premium, tax, total] = fresh.corrects?.sums.map(({ difference }) => difference.cents) ?? [];
        expect(total).toBe(fresh.totals.totalCents - old.totals.totalCents);
        expect(sum([lots ?? 0, premium ?? 0, tax ?? 0])).toBe(total);
        expect(sum(fresh.corrects?.lots.map(({ difference }) => difference.cents) ?? [])).toBe(lots);
        expect(stillTrue(fresh, invoicePaper(bought(now), STAMP))).toBe(true);
        expect(stillTrue(old, fresh)).toBe(JSON.stringify(before) === JSON.stringify(now));
      }),
    );
  });

  it('says who pays whom, and that an exempt buyer pays no tax', () => {
    const paid = (amount: string) => [payment({ buyerNo: 10, amountCents: money(amount) })];
    // 3 × 10.00, premium 1.50, 6.5 % of 31.50 is 2.0475: 33.55.
    expect(invoicePaper(bought([1000]), STAMP).result).toMatchObject({ kind: 'owes', words: '33.55' });
    expect(invoicePaper(bought([1000], { payments: paid('33.55') }), STAMP).result.kind).toBe('even');
    expect(invoicePaper(bought([1000], { payments: paid('40.00') }), STAMP).result).toMatchObject({
      ...{ kind: 'credit', label: 'We owe the buyer', words: '6.45' },
    });
    const exempt = { ...buyer(10, { taxExempt: true, exemptNo: 'TX-1' }), licenceRegion: '', licenceExpires: null };
    const { steps } = invoicePaper(bought([1000], { buyer: exempt }), STAMP);
    expect(steps.map(({ label, words }) => `${label} ${words}`)).toEqual([
      ...['Lots 30.00', 'Buyer’s premium 5 % 1.50', 'Sales tax: exempt 0.00', 'Total 31.50'],
    ]);
  });
});
