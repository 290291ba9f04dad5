import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { OUTCOME_WORDS, wentHome } from '#lib/outcome/words.ts';
import { priceTable } from '#lib/price/table.ts';
import { agencyReturnRows } from '#lib/report/agency-return.ts';
import { moneyProblems } from '#lib/report/balance.ts';
import { HELD_COLUMNS, heldRows } from '#lib/report/held-over.ts';
import { journalOf } from '#lib/report/journal.ts';
import { tagRegister } from '#lib/tag/register.ts';
import { GROUND } from '#tests/papers/support/lots.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { boughtBack, buyer, lot, saleFacts, sold, unpaid } from '#tests/support/facts.ts';

const facts = saleFacts({
  buyers: [buyer(10)],
  lots: ['1', '2', '3', '4'].map((no) => lot(no, { count: 10 })),
  outcomes: [sold('1', '8.00'), boughtBack('2', '20.00'), unpaid('3', '30.00'), unpaid('4', '40.00', 'association')],
});
const tags = facts.lots.map(({ lotNo }) => ({ lotNo, tag: `US-CITES WY BOB 2025 00010${lotNo}` }));
const after = { context: GROUND, facts, people: [], tags: [], takenIn: new Map(), statementDays: 10 };

describe('lots that were bought back or not paid for', () => {
  it('reach no invoice, no price table and no return to the agency', () => {
    expect(invoiceSale(facts).map(({ lots, amountCents }) => [lots, amountCents])).toEqual([[1, 8000]]);
    expect(priceTable(facts).map(({ lots, lowCents, highCents }) => [lots, lowCents, highCents])).toEqual([
      [1, 800, 800],
    ]);
    expect(agencyReturnRows(after)).toHaveLength(1);
  });

  it('stand among the furs that are still held, with who has them', () => {
    const outcome = HELD_COLUMNS.indexOf('outcome');
    expect(heldRows(after).map((row) => row[outcome])).toEqual([
      'bought back',
      'not paid for, back to the seller',
      'not paid for, kept by the association',
    ]);
  });

  it('stand in the register of tags with their outcome, and with no buyer and no price', () => {
    const rows = tagRegister(facts, { tags, people: [] });
    expect(rows.map(({ outcome, buyerNo, priceCents }) => [outcome, buyerNo, priceCents])).toEqual([
      ['sold', 10, 800],
      ...[['bought_back', null, null] as const, ['unpaid', null, null] as const, ['unpaid', null, null] as const],
    ]);
  });

  it('are in the journal with commission and lot fee of the one, and with nothing of the other', () => {
    const entries = journalOf(facts).filter(({ memo }) => /^Lot [234] /.test(memo));
    // 6 % of 200.00.
    expect(entries.map(({ memo, postings }) => [memo, postings[0]?.debitCents])).toEqual([
      ['Lot 2 of seller 1 bought back', 1200],
    ]);
  });

  it('go home where the seller has them', () => {
    expect(facts.outcomes.map(wentHome)).toEqual([false, true, true, false]);
    expect(wentHome({ kind: 'reopened' })).toBe(false);
  });

  it('leave no sale out of balance, and no lot of theirs with a buyer', () => {
    fc.assert(
      fc.property(anySale, (any) => {
        expect(moneyProblems(any)).toEqual([]);
        const billed = new Set(invoiceSale(any).flatMap(({ rows }) => rows.map(({ lotNo }) => lotNo)));
        for (const { lotNo, kind } of any.outcomes)
          expect(billed.has(lotNo), OUTCOME_WORDS[kind]).toBe(kind === 'sold');
      }),
    );
  });
});
