import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { addCents, type Cents, cents } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';
import {
  accountProblems,
  balanceProblems,
  entryProblems,
  invoiceProblems,
  moneyProblems,
  saleBalance,
  settlementProblems,
} from '#lib/report/balance.ts';
import { journalOf } from '#lib/report/journal.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { lot, money, payment, saleFacts, sold, taking, terms, unsold } from '#tests/support/facts.ts';

const FACTS = saleFacts({
  sale: {
    ...saleFacts().sale,
    terms: terms({ premiumPct: rate('5'), taxPct: rate('6.5'), lotFeeCents: money('0.25') }),
  },
  lots: [lot('1', { count: 3 }), lot('2'), lot('3', { donated: true })],
  outcomes: [sold('1', '7.25'), unsold('2'), sold('3', '4.10')],
  payments: [
    payment({ buyerNo: 10, amountCents: money('10.00') }),
    payment({ direction: 'out', sellerNo: 1, amountCents: money('5.00'), method: 'check' }),
  ],
  takings: [
    taking({ amountCents: money('12.00') }),
    taking({ kind: 'food', method: 'card', amountCents: money('8.00') }),
  ],
});

/** A cent more in every field of money, one field at a time. */
function centMore<T extends object>(value: T): [string, T][] {
  return Object.entries(value)
    .filter(([name]) => name.endsWith('Cents'))
    .map(([name, amount]) => [name, { ...value, [name]: addCents(amount as Cents, cents(1)) }]);
}

describe('the money of a sale', () => {
  it('adds up, whatever happened at it', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        expect(moneyProblems(facts)).toEqual([]);
      }),
    );
  });

  const [settlement] = settleSale(FACTS);
  const [invoice] = invoiceSale(FACTS);
  if (!settlement || !invoice) throw new Error('the sale has a seller and a buyer');

  it.each(centMore(settlement))('is found wrong by a cent in a settlement: %s', (_, wrong) => {
    expect(settlementProblems(settlement)).toEqual([]);
    expect(settlementProblems(wrong)).not.toEqual([]);
  });

  it('is found wrong by a cent in a line or a share', () => {
    const [line] = settlement.rows;
    const [share] = settlement.shares;
    if (!line || !share) throw new Error('there is one of each');
    for (const [name, wrong] of centMore(line)) {
      const rows = [wrong, ...settlement.rows.slice(1)];
      // The lines of a sheet add up to its columns: fees and net are sums of those.
      const column = name !== 'feesCents' && name !== 'netCents';
      expect(settlementProblems({ ...settlement, rows }).length > 0).toBe(column);
    }
    const shares = [{ ...share, shareCents: addCents(share.shareCents, cents(-1)) }];
    expect(settlementProblems({ ...settlement, shares })).toEqual([
      expect.stringMatching(/^The settlement of seller 1: shares/),
    ]);
  });

  it.each(centMore(invoice))('is found wrong by a cent in an invoice: %s', (_, wrong) => {
    expect(invoiceProblems(invoice)).toEqual([]);
    expect(invoiceProblems(wrong)).not.toEqual([]);
  });

  it('is found wrong by a cent in an entry, and in where an account ends', () => {
    const journal = journalOf(FACTS);
    const papers = { settlements: settleSale(FACTS), invoices: invoiceSale(FACTS), journal };
    expect(accountProblems(FACTS, papers)).toEqual([]);
    for (const [at, entry] of journal.entries()) {
      const [first, ...rest] = entry.postings;
      if (!first) throw new Error('an entry has postings');
      const wrong = { ...entry, postings: [{ ...first, debitCents: addCents(first.debitCents, cents(1)) }, ...rest] };
      expect(entryProblems(entry)).toEqual([]);
      expect(entryProblems(wrong)).not.toEqual([]);
      const without = { ...papers, journal: journal.filter((_, place) => place !== at) };
      expect(accountProblems(FACTS, without)).not.toEqual([]);
    }
  });

  it('is found wrong in a line of the balance', () => {
    for (const line of saleBalance(FACTS)) {
      expect(balanceProblems(line)).toEqual([]);
      expect(balanceProblems({ ...line, difference: 1 })).toHaveLength(1);
    }
  });
});
