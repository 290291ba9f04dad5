import { describe, expect, it } from 'vitest';
import { journalOf, ledgerText } from '#lib/report/journal.ts';
import { lot, money, payment, saleFacts, sold } from '#tests/support/facts.ts';

describe('ledgerText', () => {
  it('declares commodity and accounts, then writes each entry with its date and number', () => {
    const payments = [payment({ buyerNo: 10, amountCents: money('1.00'), reference: 'a; b | c\nd' })];
    const facts = saleFacts({ lots: [lot('1')], outcomes: [sold('1', '1250.00')], payments });
    expect(ledgerText(journalOf(facts), 'USD')).toBe(`commodity 1000.00 USD

account Assets:Buyers:10
account Assets:Cash
account Income:Commission
account Liabilities:Sellers:1

2026-02-28 (1) Lot 1 of seller 1 sold to buyer 10
    Assets:Buyers:10                         1250.00 USD
    Liabilities:Sellers:1                   -1250.00 USD
    Liabilities:Sellers:1                      75.00 USD
    Income:Commission                         -75.00 USD

2026-02-28 (2) Paid in by buyer 10, cash a b c d
    Assets:Cash                                 1.00 USD
    Assets:Buyers:10                           -1.00 USD
`);
  });

  it('of a sale without entries still names the commodity', () => {
    expect(ledgerText([], 'CAD')).toBe('commodity 1000.00 CAD\n\n');
  });
});
