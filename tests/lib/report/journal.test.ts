import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { sumCents } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';
import { accountBalances, type JournalEntry, journalOf } from '#lib/report/journal.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import {
  charge,
  lot,
  money,
  payment,
  sale,
  saleFacts,
  seller,
  sold,
  taking,
  terms,
  unsold,
} from '#tests/support/facts.ts';

const facts = saleFacts({
  sale: sale({
    terms: terms({
      sellerNumberFeeCents: money('5.00'),
      lotFeeCents: money('0.25'),
      noSaleFlatCents: money('1.00'),
      premiumPct: rate('2.5'),
      taxPct: rate('6.5'),
    }),
  }),
  lots: [lot('2'), lot('1', { count: 2 }), lot('3', { donated: true }), lot('4')],
  outcomes: [unsold('2'), sold('1', '50.00'), sold('3', '10.00'), unsold('4', 'withdrawn')],
  charges: [charge(), charge({ how: 'cash' }), charge({ kind: 'adjustment', amountCents: money('-3.00') })],
  payments: [
    payment({ buyerNo: 10, method: 'check', reference: 'no. 7', amountCents: money('100.00') }),
    payment({
      direction: 'out',
      sellerNo: 1,
      method: 'check',
      amountCents: money('60.00'),
      paidAt: '2026-03-14T10:00:00Z',
    }),
    payment({ personId: 'P9', method: 'card', amountCents: money('25.00'), paidAt: '2026-02-01T10:00:00Z' }),
  ],
  takings: [
    taking({ amountCents: money('41.00') }),
    taking({ kind: 'other', method: 'check', note: 'a hat', amountCents: money('7.50') }),
  ],
});

/** An entry as one line a posting: the account and what is debited, negative when credited. */
const spelled = ({ postings }: JournalEntry) =>
  postings.map(({ account, debitCents, creditCents }) => [account, debitCents - creditCents]);

describe('journalOf', () => {
  const entries = journalOf(facts);
  const entry = (memo: string) => entries.filter((one) => one.memo === memo).map(spelled);

  it('posts a sold lot to its buyer, its seller, the premium, the commission and the fee', () => {
    expect(entry('Lot 1 of seller 1 sold to buyer 10')).toEqual([
      [
        ['Assets:Buyers:10', 10_000],
        ['Liabilities:Sellers:1', -10_000],
        ['Assets:Buyers:10', 250],
        ["Income:Buyer's premium", -250],
        ['Liabilities:Sellers:1', 600],
        ['Income:Commission', -600],
        ['Liabilities:Sellers:1', 25],
        ['Income:Lot fees', -25],
      ],
    ]);
  });

  it('posts takings to the income of their kind, where the money lies', () => {
    expect(entry('Taken in, raffle, cash')).toEqual([
      [
        ['Assets:Cash', 4100],
        ['Income:Raffle', -4100],
      ],
    ]);
    expect(entry('Taken in, other, check a hat')).toEqual([
      [
        ['Assets:Checks', 750],
        ['Income:Other takings', -750],
      ],
    ]);
  });

  it('posts a donated lot to the association, and a passed lot to its fees', () => {
    expect(entry('Lot 3 of seller 1 sold to buyer 10, donated')[0]?.slice(0, 2)).toEqual([
      ['Assets:Buyers:10', 1000],
      ['Income:Donated lots', -1000],
    ]);
    expect(entry('Lot 2 of seller 1 passed')).toEqual([
      [
        ['Liabilities:Sellers:1', 25],
        ['Income:Lot fees', -25],
        ['Liabilities:Sellers:1', 100],
        ['Income:No-sale fees', -100],
      ],
    ]);
    expect(entries.some(({ memo }) => memo.includes('Lot 4'))).toBe(false);
  });

  it('posts tax, seller numbers and charges, a negative one the other way about', () => {
    expect(entry('Sales tax of buyer 10')).toEqual([
      [
        ['Assets:Buyers:10', 733],
        ['Liabilities:Sales tax', -733],
      ],
    ]);
    expect(entry('Seller number 1')).toEqual([
      [
        ['Liabilities:Sellers:1', 500],
        ['Income:Seller numbers', -500],
      ],
    ]);
    expect(entry('Dues of seller 1, deducted')[0]?.[0]).toEqual(['Liabilities:Sellers:1', 2500]);
    expect(entry('Dues of seller 1, in cash')[0]?.[0]).toEqual(['Assets:Cash', 2500]);
    expect(entry('Adjustment of seller 1, deducted')).toEqual([
      [
        ['Income:Adjustments', 300],
        ['Liabilities:Sellers:1', -300],
      ],
    ]);
  });

  it('posts payments on their own day, and numbers the entries by date', () => {
    expect(entries.map(({ number }) => number)).toEqual(entries.map((_, at) => at + 1));
    expect(entries[0]).toMatchObject({ date: '2026-02-01', memo: 'Paid in by person P9, card' });
    expect(spelled(entries[0] as JournalEntry)).toEqual([
      ['Assets:Cards', 2500],
      ['Income:Dues', -2500],
    ]);
    expect(entry('Paid in by buyer 10, check no. 7')[0]?.[0]).toEqual(['Assets:Checks', 10_000]);
    expect(entries.at(-1)).toMatchObject({ date: '2026-03-14', memo: 'Paid out to seller 1, check' });
    expect(spelled(entries.at(-1) as JournalEntry)).toEqual([
      ['Liabilities:Sellers:1', 6000],
      ['Assets:Bank', -6000],
    ]);
  });

  it('posts an advance to the asset that it was and pays back', () => {
    const charges = [charge({ kind: 'advance', amountCents: money('40.00') })];
    const balances = accountBalances(journalOf(saleFacts({ charges, sellers: [seller(1)] })));
    expect([...balances]).toEqual([
      ['Assets:Advances to sellers', 0],
      ['Assets:Cash', -4000],
      ['Liabilities:Sellers:1', 4000],
    ]);
  });

  it('balances in every entry, on one side of each posting only', () => {
    fc.assert(
      fc.property(anySale, (any) => {
        for (const { postings } of journalOf(any)) {
          expect(sumCents(postings.map(({ debitCents }) => debitCents))).toBe(
            sumCents(postings.map(({ creditCents }) => creditCents)),
          );
          for (const { debitCents, creditCents } of postings) {
            expect(Math.min(debitCents, creditCents)).toBe(0);
            expect(Math.max(debitCents, creditCents)).toBeGreaterThan(0);
          }
        }
      }),
    );
  });

  it("leaves each seller's net less what was paid out, and each buyer's total less what was paid in", () => {
    fc.assert(
      fc.property(anySale, (any) => {
        const balances = accountBalances(journalOf(any));
        const signed = any.payments.map((one) => ({
          ...one,
          in: one.direction === 'in' ? one.amountCents : -one.amountCents,
        }));
        for (const { sellerNo, netCents } of settleSale(any)) {
          const paidIn = signed.filter((one) => one.sellerNo === sellerNo).reduce((so, one) => so + one.in, 0);
          expect(-(balances.get(`Liabilities:Sellers:${sellerNo}`) ?? 0) + 0).toBe(netCents + paidIn);
        }
        const totals = new Map(invoiceSale(any).map(({ buyerNo, totalCents }) => [buyerNo, totalCents]));
        for (const { buyerNo } of any.buyers) {
          const paidIn = signed.filter((one) => one.buyerNo === buyerNo).reduce((so, one) => so + one.in, 0);
          expect((balances.get(`Assets:Buyers:${buyerNo}`) ?? 0) + 0).toBe((totals.get(buyerNo) ?? 0) - paidIn);
        }
      }),
    );
  });

  it('leaves as income what the sheets and the invoices say, and nothing over all accounts', () => {
    fc.assert(
      fc.property(anySale, (any) => {
        const balances = accountBalances(journalOf(any));
        const income = (name: string) => -(balances.get(`Income:${name}`) ?? 0) + 0;
        const settlements = settleSale(any);
        const invoices = invoiceSale(any);
        const rows = settlements.flatMap((one) => one.rows);
        expect(income('Commission')).toBe(sumCents(settlements.map((one) => one.commissionCents)));
        expect(income('Lot fees')).toBe(sumCents(settlements.map((one) => one.lotFeesCents)));
        expect(income('No-sale fees')).toBe(sumCents(settlements.map((one) => one.noSaleFeesCents)));
        expect(income('Seller numbers')).toBe(sumCents(settlements.map((one) => one.sellerNumberFeeCents)));
        expect(income("Buyer's premium")).toBe(sumCents(invoices.map((one) => one.premiumCents)));
        expect(income('Donated lots')).toBe(
          sumCents(rows.filter(({ donated }) => donated).map(({ amountCents }) => amountCents)),
        );
        expect(-(balances.get('Liabilities:Sales tax') ?? 0) + 0).toBe(sumCents(invoices.map((one) => one.taxCents)));
        expect(sumCents(balances.values())).toBe(0);
      }),
    );
  });
});
