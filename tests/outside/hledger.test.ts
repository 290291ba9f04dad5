/**
 * The journal read by hledger, a general ledger program (hledger.org): it must accept the text under its strict checks
 * and come to the same balances. hledger has to be there; without it this file fails.
 */
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatMoney } from '#lib/money/money.ts';
import { accountBalances, journalOf, ledgerText } from '#lib/report/journal.ts';
import type { SaleFacts } from '#lib/sale/facts.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { readCase } from '#tests/support/case-folder.ts';
import { money, payment } from '#tests/support/facts.ts';
import { balancesOf, hledger } from '#tests/support/judges.ts';

function agree(facts: SaleFacts): void {
  const entries = journalOf(facts);
  const { currency } = facts.sale;
  const text = ledgerText(entries, currency);
  expect(hledger(text, 'check', '--strict')).toBe('');
  const ours = new Map([...accountBalances(entries)].map(([account, cents]) => [account, formatMoney(cents)]));
  expect(new Map([...balancesOf(text, currency)].sort())).toEqual(new Map([...ours].sort()));
}

describe('the journal, read by hledger', () => {
  it.each(['by-hand', 'sixty-lots'])('of the worked sale %s is accepted and comes to the same balances', (folder) => {
    agree(readCase(folder).facts);
  });

  it('agrees after payments by every method, in and out', () => {
    const { facts } = readCase('by-hand');
    const one = { amountCents: money('12.34') };
    const payments = [
      payment({ ...one, buyerNo: 10, method: 'check', reference: 'Łódź; no. 7 | first' }),
      payment({ ...one, buyerNo: 11, method: 'cash' }),
      payment({ ...one, buyerNo: 11, method: 'card', direction: 'out' }),
      payment({ ...one, sellerNo: 1, method: 'check', direction: 'out', paidAt: '2026-03-14T10:00:00Z' }),
      payment({ ...one, sellerNo: 2, method: 'other' }),
      payment({ ...one, personId: 'P1' }),
    ];
    agree({ ...facts, payments });
    expect(accountBalances(journalOf({ ...facts, payments })).get('Assets:Buyers:10')).toBe(47_691 - 1234);
  });

  it('comes to nothing over all accounts', () => {
    const { facts } = readCase('sixty-lots');
    const text = ledgerText(journalOf(facts), facts.sale.currency);
    const out = hledger(text, 'balance', '--depth=0', '--no-total', '--empty', '--output-format=csv');
    const rows = parse(out, { columns: true }) as { balance: string }[];
    expect(rows.map(({ balance }) => balance)).toEqual(['0']);
  });

  it('agrees for sales at random', () => {
    fc.assert(fc.property(anySale, agree), { numRuns: 12 });
  });

  it('is a check that can fail: a cent too much and an account not declared are refused', () => {
    const { facts } = readCase('by-hand');
    const text = ledgerText(journalOf(facts), 'USD');
    expect(() => hledger(text.replace('338.25 USD', '338.26 USD'), 'check', '--strict')).toThrow(/balance/);
    expect(() => hledger(text.replace('account Income:Commission\n', ''), 'check', '--strict')).toThrow(/account/);
    expect(() => hledger(text.replace('commodity 1000.00 USD', ''), 'check', '--strict')).toThrow(/commodity/);
  });
});
