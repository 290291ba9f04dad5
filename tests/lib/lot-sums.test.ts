import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Membership } from '#lib/facts.ts';
import { lotNo } from '#lib/lot-number.ts';
import { cents, rate } from '#lib/money.ts';
import { lotLine } from '#lib/settlement.ts';
import { anyLot, anyTerms } from '#tests/support/arbitrary-sale.ts';
import { lot, money, sold, terms, unsold } from '#tests/support/facts.ts';

const all = terms({
  commissionOverrides: { bobcat: { member: rate('3.75'), guest: rate('6') } },
  commissionMinCents: money('0.10'),
  lotFeeCents: money('0.25'),
  noSaleFlatCents: money('1.00'),
  noSalePctOfMinimum: rate('2'),
});
const member = { terms: all, membership: 'member' } as const;
const guest = { terms: all, membership: 'guest' } as const;

describe('lotLine', () => {
  it('of a sold lot takes commission and the lot fee off', () => {
    expect(lotLine(lot('1', { goods: 'bobcat', count: 3 }), sold('1', '112.75'), member)).toEqual({
      lotNo: '1',
      outcome: 'sold',
      donated: false,
      amountCents: 33_825,
      commissionCents: 1268,
      lotFeeCents: 25,
      noSaleFeeCents: 0,
      feesCents: 25,
      netCents: 32_532,
    });
  });

  it('raises a small commission to the least, and never above the amount', () => {
    expect(lotLine(lot('1'), sold('1', '0.35'), member).commissionCents).toBe(10);
    expect(lotLine(lot('1'), sold('1', '0.07'), member).commissionCents).toBe(7);
    expect(lotLine(lot('1'), sold('1', '0.07'), member).netCents).toBe(-25);
    expect(lotLine(lot('1'), sold('1', '0.00'), member).commissionCents).toBe(0);
  });

  it('of a guest takes the guest rate', () => {
    expect(lotLine(lot('5', { by: 'lot', count: 40 }), sold('5', '101.30'), guest).commissionCents).toBe(1013);
  });

  it('of a passed lot takes the lot fee, the flat fee and a part of what its minimum stands for', () => {
    const passed = lotLine(lot('6', { count: 2, minimumCents: money('12.50') }), unsold('6'), guest);
    expect(passed).toMatchObject({
      amountCents: 0,
      commissionCents: 0,
      noSaleFeeCents: 150,
      feesCents: 175,
      netCents: -175,
    });
    expect(lotLine(lot('6'), unsold('6'), guest).noSaleFeeCents).toBe(100);
    // 0.49 a pound on half a pound is 0.245, rounded to 0.25 first; 2 % of that is half a cent, so a cent.
    const byWeight = lot('8', { by: 'lb', weightThousandths: 500, minimumCents: money('0.49') });
    expect(lotLine(byWeight, unsold('8'), guest).noSaleFeeCents).toBe(101);
  });

  it('of a donated lot takes nothing and gives the seller nothing', () => {
    const given = lot('7', { donated: true, minimumCents: money('5.00') });
    expect(lotLine(given, sold('7', '10.00'), member)).toMatchObject({
      donated: true,
      amountCents: 1000,
      commissionCents: 0,
      feesCents: 0,
      netCents: 0,
    });
    expect(lotLine(given, unsold('7'), member)).toMatchObject({ feesCents: 0, netCents: 0 });
  });

  it('of a withdrawn lot is all zeros', () => {
    const line = lotLine(lot('9', { minimumCents: money('5.00') }), unsold('9', 'withdrawn'), member);
    expect(line).toMatchObject({ outcome: 'withdrawn', amountCents: 0, commissionCents: 0, feesCents: 0, netCents: 0 });
  });

  it('throws for a sold lot without a price', () => {
    expect(() => lotLine(lot('1'), { ...sold('1', '1.00'), priceCents: null }, member)).toThrow('without a price');
  });

  it('adds up, and takes no more commission than the amount', () => {
    const anyCalled = fc.record({
      own: anyTerms,
      any: anyLot,
      membership: fc.constantFrom<Membership>('member', 'guest'),
      price: fc.integer({ min: 0, max: 99_999 }),
    });
    fc.assert(
      fc.property(anyCalled, ({ own, any, membership, price }) => {
        const called = lot('1', { ...any, lotNo: lotNo('1') });
        const outcome = { ...sold('1', '0'), priceCents: cents(price) };
        const line = lotLine(called, outcome, { terms: own, membership });
        expect(line.feesCents).toBe(line.lotFeeCents + line.noSaleFeeCents);
        const gross = line.donated ? 0 : line.amountCents;
        expect(line.netCents).toBe(gross - line.commissionCents - line.feesCents);
        expect(line.commissionCents).toBeGreaterThanOrEqual(0);
        expect(line.commissionCents).toBeLessThanOrEqual(line.amountCents);
        if (!line.donated) {
          expect(line.commissionCents).toBeGreaterThanOrEqual(Math.min(own.commissionMinCents, line.amountCents));
        }
      }),
    );
  });
});
