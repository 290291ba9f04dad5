import { describe, expect, it } from 'vitest';
import { lotNo } from '#lib/lot/number.ts';
import { tagRegister } from '#lib/tag/register.ts';
import { lot, saleFacts, seller, sold, unsold } from '#tests/support/facts.ts';

const partners = ['A', 'B', 'C'].map((personId) => ({ personId, memberUntil: null, parts: 1 }));
const facts = saleFacts({
  sellers: [seller(2, { partners }), seller(1)],
  lots: [
    lot('10', { goods: 'bobcat', sellerNo: 1 }),
    lot('9', { goods: 'otter', sellerNo: 1 }),
    lot('1', { goods: 'bobcat', sellerNo: 2 }),
  ],
  outcomes: [sold('10', '125.00', 10), unsold('9')],
});
const people = [
  { personId: 'A', licenceNo: '' },
  { personId: 'B', licenceNo: 'L2' },
  { personId: 'C', licenceNo: 'L3' },
];
const tags = [
  { lotNo: lotNo('1'), tag: 'US-CITES WY BOB 2025 000101' },
  { lotNo: lotNo('10'), tag: 'US-CITES WY BOB 2025 000105' },
  { lotNo: lotNo('10'), tag: 'US-CITES WY BOB 2025 000104' },
  { lotNo: lotNo('9'), tag: 'US-CITES WY OTT 2025 000007' },
];

describe('tagRegister', () => {
  it('has a row a tag, by seller number, lot number and tag, with the licence of every partner who has one', () => {
    const rows = tagRegister(facts, { tags, people });
    expect(rows.map((row) => Object.values(row))).toEqual([
      ['US-CITES WY OTT 2025 000007', 'otter', 1, '', '9', 'passed', null, null],
      ['US-CITES WY BOB 2025 000104', 'bobcat', 1, '', '10', 'sold', 10, 12_500],
      ['US-CITES WY BOB 2025 000105', 'bobcat', 1, '', '10', 'sold', 10, 12_500],
      ['US-CITES WY BOB 2025 000101', 'bobcat', 2, 'L2; L3', '1', null, null, null],
    ]);
  });
  it('throws for a tag of a lot that is not there', () => {
    expect(() => tagRegister(facts, { tags: [{ lotNo: lotNo('77'), tag: 'x' }], people })).toThrow('lot 77');
  });
});
