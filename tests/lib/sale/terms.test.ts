import { describe, expect, it } from 'vitest';
import { rate } from '#lib/money/rate.ts';
import { termsInWords } from '#lib/sale/terms.ts';
import { goods, money, sale, terms } from '#tests/support/facts.ts';

describe('termsInWords', () => {
  it('says every term that plays a part', () => {
    const own = terms({
      commissionOverrides: { bobcat: { member: rate('3.75'), guest: rate('6') } },
      commissionMinCents: money('0.10'),
      sellerNumberFeeCents: money('5.00'),
      lotFeeCents: money('0.25'),
      noSaleFlatCents: money('1.00'),
      noSalePctOfMinimum: rate('2'),
      premiumPct: rate('2.5'),
      taxPct: rate('6.5'),
    });
    expect(termsInWords(sale({ terms: own }), [goods('bobcat', { name: 'Bobcat' })])).toEqual([
      'Members pay 6 % commission, guests 10 %.',
      'Bobcat: members pay 3.75 %, guests 6 %.',
      'The commission of a lot is at least 0.10 USD, and never more than the lot brought.',
      'A seller number costs 5.00 USD.',
      'Each lot sold or passed costs 0.25 USD.',
      'A lot that is passed costs a no-sale fee of 1.00 USD and 2 % of its minimum.',
      'Buyers pay a premium of 2.5 % on each lot.',
      'Buyers who are not exempt pay 6.5 % sales tax on their lots and premium.',
      'A donated lot pays no commission and no fee; what it brings is the association\u2019s.',
    ]);
  });
  it('leaves out what is nothing', () => {
    expect(termsInWords(sale(), [])).toEqual([
      'Members pay 6 % commission, guests 10 %.',
      'There is no buyer\u2019s premium.',
      'A donated lot pays no commission and no fee; what it brings is the association\u2019s.',
    ]);
    const pctOnly = terms({ noSalePctOfMinimum: rate('2'), taxPct: rate('0.0'), premiumPct: rate('.0') });
    expect(termsInWords(sale({ terms: pctOnly }), [])).toContain(
      'A lot that is passed costs a no-sale fee of 2 % of its minimum.',
    );
    expect(termsInWords(sale({ terms: pctOnly }), []).join(' ')).not.toContain('tax');
  });
});
