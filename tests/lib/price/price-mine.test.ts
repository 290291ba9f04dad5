import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lotNo } from '#lib/lot/number.ts';
import { cents } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';
import { type Asked, mineKey, whatMineBrought } from '#lib/price/mine.ts';
import { rangeOf } from '#lib/price/range.ts';
import type { Terms } from '#lib/sale/facts.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { lot } from '#tests/support/facts.ts';
import { offered } from '#tests/support/prices.ts';

const terms: Terms = {
  commission: { member: rate('6'), guest: rate('10') },
  commissionOverrides: { bobcat: { member: rate('3.75'), guest: rate('6') } },
  ...{ commissionMinCents: cents(10), sellerNumberFeeCents: cents(500), lotFeeCents: cents(25) },
  ...{ noSaleFlatCents: cents(100), noSalePctOfMinimum: rate('2'), premiumPct: rate('0'), taxPct: rate('0') },
  ...{ priceStepCents: cents(25), leftBids: 'step', guestsMaySell: false, duesCents: cents(0) },
};

/** Quarters 3.25 and 7.75, from Hyndman and Fan's (1996) type 7 of 1.00 to 10.00. */
const range = rangeOf(Array.from({ length: 10 }, (_, at) => offered({ price: 100 * (at + 1) })));
const asked = (over: Partial<Asked> = {}): Asked => ({
  ...({ goods: 'raccoon', name: 'Raccoon', by: 'piece', typed: '40' } as const),
  ...{ range, ...over },
});

describe('what mine would have brought', () => {
  // By hand: 40 × 3.25 = 130.00, 6 % = 7.80, less 0.25 and 5.00: 116.95. 40 × 7.75 = 310.00, 18.60: 286.15.
  it('is a range before and after commission and fees, with its sums', () => {
    const { low, high, lines } = whatMineBrought([asked()], { terms, membership: 'member' });
    expect(low).toEqual({ beforeCents: 13000, commissionCents: 780, feesCents: 525, afterCents: 11695 });
    expect(high).toEqual({ beforeCents: 31000, commissionCents: 1860, feesCents: 525, afterCents: 28615 });
    expect(lines[0]?.low).toEqual({ beforeCents: 13000, commissionCents: 780, feesCents: 25, afterCents: 12195 });
  });

  // By hand: 7.35 oz × 3.25 = 23.8875, half up 23.89; a guest pays 10 % = 2.389, half up 2.39.
  it('takes goods by weight by their weight, and a guest at the guests’ rate', () => {
    const { lines } = whatMineBrought([asked({ by: 'oz', typed: '7.35' })], { terms, membership: 'guest' });
    expect(lines[0]).toMatchObject({ quantity: '7.35', low: { beforeCents: 2389, commissionCents: 239 } });
  });

  it('is empty where there is no ground, and says what was left out', () => {
    const bobcat = asked({ goods: 'bobcat', name: 'Bobcat', range: null, typed: '2' });
    const nothing = whatMineBrought([bobcat], { terms, membership: 'member' });
    expect(nothing).toMatchObject({ lines: [], without: ['Bobcat'], low: null, high: null });
    const some = whatMineBrought([bobcat, asked()], { terms, membership: 'member' });
    expect(some).toMatchObject({ without: ['Bobcat'], low: { beforeCents: 13000 } });
    expect(
      whatMineBrought([asked({ typed: ' ' }), asked({ typed: '0' })], { terms, membership: 'member' }).low,
    ).toBeNull();
  });

  it('tells what cannot be read by the goods it stands for, and works out the rest', () => {
    const bad = asked({ goods: 'mink', typed: 'ten' });
    const { refused, lines } = whatMineBrought([bad, asked()], { terms, membership: 'member' });
    expect(refused.get(mineKey(bad))?.message).toMatch(/^[A-Z].*\.$/);
    expect(lines).toHaveLength(1);
  });

  it('is what the settlement of such a sale would pay, to the cent', () => {
    const kinds = ['raccoon', 'bobcat', 'mink'] as const;
    const counts = fc.array(fc.integer({ min: 1, max: 400 }), { minLength: 3, maxLength: 3 });
    const prices = fc.array(fc.integer({ min: 1, max: 40_000 }), { minLength: 3, maxLength: 3 });
    fc.assert(
      fc.property(counts, prices, fc.constantFrom('member', 'guest'), (pieces, each, membership) => {
        const list = kinds.map((goods, at) =>
          asked({ goods, typed: String(pieces[at]), range: rangeOf([offered({ goods, price: each[at] ?? 1 })]) }),
        );
        const { low, high } = whatMineBrought(list, { terms, membership });
        const [settled] = settleSale(
          soldAs(
            kinds.map((goods, at) => [goods, pieces[at] ?? 1, each[at] ?? 1]),
            membership,
          ),
        );
        expect(low?.afterCents).toBe(settled?.netCents);
        expect(high).toEqual(low);
      }),
      { numRuns: 60 },
    );
  });
});

/** A sale at which one seller number sold these lots, for the settlement of the whole program to judge. */
function soldAs(lots: readonly (readonly [string, number, number])[], membership: 'member' | 'guest') {
  const sale = {
    ...{ name: 'Sale', heldOn: '2026-02-28', venue: '', season: '2025-26', seasonClosesOn: null, region: 'US-WY' },
    ...({ currency: 'USD', bidding: 'floor' } as const),
    terms,
  };
  const memberUntil = membership === 'member' ? '2026-12-31' : null;
  return {
    ...{ sale, timeZone: 'UTC', goods: [], buyers: [], charges: [], payments: [], takings: [], cardFees: [] },
    sellers: [{ sellerNo: 1, partners: [{ personId: 'P1', memberUntil, parts: 1 }] }],
    lots: lots.map(([goods, count], at) => ({
      ...lot(String(at + 1), { goods, count }),
    })),
    outcomes: lots.map(([, , price], at) => ({
      ...{ lotNo: lotNo(String(at + 1)), kind: 'sold' as const, priceCents: cents(price), buyerNo: 10 },
    })),
  };
}
