import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lotNo } from '#lib/lot/number.ts';
import { Decimal } from '#lib/money/decimal.ts';
import { cents, sumCents } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';
import type { Membership } from '#lib/sale/facts.ts';
import { allocate, commissionPct, membershipOf, ratesFor, settleSale, sheetRow } from '#lib/settlement/settlement.ts';
import { anyLot, anySale, anyTerms } from '#tests/support/arbitrary-sale.ts';
import {
  boughtBack,
  charge,
  lot,
  money,
  sale,
  saleFacts,
  seller,
  sold,
  terms,
  unpaid,
  unsold,
} from '#tests/support/facts.ts';

const partner = (memberUntil: string | null) => ({ personId: 'P', memberUntil, parts: 1 });

describe('membershipOf', () => {
  it.each([
    [['2026-12-31'], 'member'],
    [['2026-02-28'], 'member'],
    [['2026-02-27'], 'guest'],
    [[null], 'guest'],
    [['2026-12-31', '2026-02-28'], 'member'],
    [['2026-12-31', null], 'guest'],
    [['2026-12-31', '2025-12-31'], 'guest'],
    [[], 'guest'],
  ])('dues paid until %j make a %s on 2026-02-28', (until, membership) => {
    expect(membershipOf({ partners: until.map(partner) }, '2026-02-28')).toBe(membership);
  });
});

describe('ratesFor and commissionPct', () => {
  const own = terms({ commissionOverrides: { bobcat: { member: rate('3.75'), guest: rate('6') } } });
  it('takes the override of the goods, else the base', () => {
    expect(commissionPct(own, 'bobcat', 'member')).toBe('3.75');
    expect(commissionPct(own, 'bobcat', 'guest')).toBe('6');
    expect(commissionPct(own, 'raccoon', 'member')).toBe('6');
    expect(commissionPct(own, 'raccoon', 'guest')).toBe('10');
  });
  it.each(['constructor', '__proto__', 'toString'])('is not misled by goods named %s', (name) => {
    expect(ratesFor(own, name)).toBe(own.commission);
  });
});

const everyTerm = terms({
  commissionOverrides: { bobcat: { member: rate('3.75'), guest: rate('6') } },
  commissionMinCents: money('0.10'),
  lotFeeCents: money('0.25'),
  noSaleFlatCents: money('1.00'),
  noSalePctOfMinimum: rate('2'),
});
const member = { terms: everyTerm, membership: 'member' } as const;
const guest = { terms: everyTerm, membership: 'guest' } as const;

describe('sheetRow', () => {
  it('of a sold lot takes commission and the lot fee off', () => {
    expect(sheetRow(lot('1', { goods: 'bobcat', count: 3 }), sold('1', '112.75'), member)).toEqual({
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
    expect(sheetRow(lot('1'), sold('1', '0.35'), member).commissionCents).toBe(10);
    expect(sheetRow(lot('1'), sold('1', '0.07'), member).commissionCents).toBe(7);
    expect(sheetRow(lot('1'), sold('1', '0.07'), member).netCents).toBe(-25);
    expect(sheetRow(lot('1'), sold('1', '0.00'), member).commissionCents).toBe(0);
  });

  it('of a guest takes the guest rate', () => {
    expect(sheetRow(lot('5', { by: 'lot', count: 40 }), sold('5', '101.30'), guest).commissionCents).toBe(1013);
  });

  it('of a passed lot takes the lot fee, the flat fee and a part of what its minimum stands for', () => {
    const passed = sheetRow(lot('6', { count: 2, minimumCents: money('12.50') }), unsold('6'), guest);
    expect(passed).toMatchObject({
      amountCents: 0,
      commissionCents: 0,
      noSaleFeeCents: 150,
      feesCents: 175,
      netCents: -175,
    });
    expect(sheetRow(lot('6'), unsold('6'), guest).noSaleFeeCents).toBe(100);
    // 0.49 a pound on half a pound is 0.245, rounded to 0.25 first; 2 % of that is half a cent, so a cent.
    const byWeight = lot('8', { by: 'lb', weightThousandths: 500, minimumCents: money('0.49') });
    expect(sheetRow(byWeight, unsold('8'), guest).noSaleFeeCents).toBe(101);
  });

  it('of a donated lot takes nothing and gives the seller nothing', () => {
    const given = lot('7', { donated: true, minimumCents: money('5.00') });
    expect(sheetRow(given, sold('7', '10.00'), member)).toMatchObject({
      donated: true,
      amountCents: 1000,
      commissionCents: 0,
      feesCents: 0,
      netCents: 0,
    });
    expect(sheetRow(given, unsold('7'), member)).toMatchObject({ feesCents: 0, netCents: 0 });
  });

  it('of a withdrawn lot is all zeros', () => {
    const line = sheetRow(lot('9', { minimumCents: money('5.00') }), unsold('9', 'withdrawn'), member);
    expect(line).toMatchObject({ outcome: 'withdrawn', amountCents: 0, commissionCents: 0, feesCents: 0, netCents: 0 });
  });

  // Common practice, no source: the house has called the lot, so it has its commission and its fee.
  it('of a lot that its seller bought back pays the commission of a sale at that price and the lot fee, and brings nothing', () => {
    const line = sheetRow(lot('9', { count: 10, minimumCents: money('50.00') }), boughtBack('9', '20.00'), member);
    const asSold = sheetRow(lot('9', { count: 10 }), sold('9', '20.00'), member);
    expect(line).toMatchObject({
      ...{ outcome: 'bought_back', amountCents: 0, commissionCents: 1200, noSaleFeeCents: 0 },
      ...{ lotFeeCents: asSold.lotFeeCents, netCents: -1200 - asSold.lotFeeCents },
    });
    expect(line.commissionCents).toBe(asSold.commissionCents);
  });

  // Common practice, no source: the seller does not pay for a buyer who does not.
  it('of a lot that was not paid for is all zeros, as that of a withdrawn lot', () => {
    const own = lot('9', { count: 10, minimumCents: money('5.00') });
    const line = sheetRow(own, unpaid('9', '20.00'), member);
    expect(line).toEqual({ ...sheetRow(own, unsold('9', 'withdrawn'), member), outcome: 'unpaid' });
  });

  it('throws for a sold lot without a price', () => {
    expect(() => sheetRow(lot('1'), { ...sold('1', '1.00'), priceCents: null }, member)).toThrow('without a price');
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
        const line = sheetRow(called, outcome, { terms: own, membership });
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

const own = terms({
  sellerNumberFeeCents: money('5.00'),
  lotFeeCents: money('0.25'),
  noSaleFlatCents: money('1.00'),
});

describe('settleSale', () => {
  it('settles every seller number in order, also one without lots, which then owes its fee', () => {
    const settled = settleSale(saleFacts({ sale: sale({ terms: own }), sellers: [seller(12), seller(2)] }));
    expect(settled.map(({ sellerNo, netCents, rows }) => [sellerNo, netCents, rows])).toEqual([
      [2, -500, []],
      [12, -500, []],
    ]);
    expect(settled[0]?.shares).toEqual([{ personId: 'P2', parts: 1, shareCents: -500 }]);
  });

  it('puts lines in the order of lot numbers, leaves out lots not yet called, and counts', () => {
    const lots = ['10', '2B', '2A', '2', '3', '4'].map((no) => lot(no, { donated: no === '3' }));
    const outcomes = [
      sold('10', '1.00'),
      unsold('2B'),
      sold('2A', '2.00'),
      unsold('2', 'withdrawn'),
      sold('3', '9.00'),
    ];
    const [settled] = settleSale(saleFacts({ sale: sale({ terms: own }), lots, outcomes }));
    expect(settled?.rows.map(({ lotNo }) => lotNo)).toEqual(['2', '2A', '2B', '3', '10']);
    expect(settled).toMatchObject({
      lotsSold: 3,
      lotsPassed: 1,
      grossCents: 300,
      commissionCents: 18,
      lotFeesCents: 75,
      noSaleFeesCents: 100,
      netCents: 300 - 18 - 75 - 100 - 500,
    });
  });

  it('deducts charges that are deducted, adds a negative one, and leaves out what was paid in cash', () => {
    const charges = [
      charge(),
      charge({ how: 'cash' }),
      charge({ kind: 'advance', amountCents: money('40.00') }),
      charge({ kind: 'adjustment', amountCents: money('-3.50') }),
    ];
    expect(settleSale(saleFacts({ charges }))[0]).toMatchObject({ chargesCents: 6150, netCents: -6150 });
  });

  it('is the same for whoever has a lot not paid for as if it had been withdrawn', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        const spared = facts.outcomes.map(({ fate: _, ...one }) =>
          one.kind === 'unpaid' ? { ...one, kind: 'withdrawn' as const, priceCents: null, buyerNo: null } : one,
        );
        const sums = (outcomes: typeof facts.outcomes) =>
          settleSale({ ...facts, outcomes }).map(({ rows: _, ...settled }) => settled);
        expect(sums(facts.outcomes)).toEqual(sums(spared));
      }),
    );
  });

  it('makes a partnership with one guest in it a guest', () => {
    const partners = [
      { personId: 'A', memberUntil: '2026-12-31', parts: 2 },
      { personId: 'B', memberUntil: null, parts: 1 },
    ];
    const [settled] = settleSale(
      saleFacts({ sellers: [seller(1, { partners })], lots: [lot('1')], outcomes: [sold('1', '10.00')] }),
    );
    expect(settled).toMatchObject({ membership: 'guest', commissionCents: 100, netCents: 900 });
    expect(settled?.shares.map(({ shareCents }) => shareCents)).toEqual([600, 300]);
  });

  it('settles a number that has no partner as a guest, with nobody to share it', () => {
    const facts = saleFacts({
      sellers: [seller(1, { partners: [] })],
      lots: [lot('1')],
      outcomes: [sold('1', '10.00')],
    });
    expect(settleSale(facts)).toMatchObject([{ membership: 'guest', commissionCents: 100, netCents: 900, shares: [] }]);
  });

  it('rounds commission for each lot, not on the total', () => {
    const three = terms({ commission: { member: rate('10'), guest: rate('10') } });
    const lots = [lot('1'), lot('2'), lot('3')];
    const outcomes = [sold('1', '2.25'), sold('2', '2.25'), sold('3', '2.25')];
    const [settled] = settleSale(saleFacts({ sale: sale({ terms: three }), lots, outcomes }));
    expect(settled?.commissionCents).toBe(69);
  });

  it('throws for a lot or a charge of a seller number that is not there', () => {
    expect(() => settleSale(saleFacts({ lots: [lot('1', { sellerNo: 9 })], outcomes: [sold('1', '1.00')] }))).toThrow(
      'number 9',
    );
    expect(() => settleSale(saleFacts({ charges: [charge({ sellerNo: 9 })] }))).toThrow('number 9');
  });

  it('has totals that are the sums of its lines, and shares that add up to the net', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        const settlements = settleSale(facts);
        expect(settlements.map(({ sellerNo }) => sellerNo)).toEqual([1, 2, 3, 7]);
        for (const one of settlements) {
          expect(sumCents(one.shares.map(({ shareCents }) => shareCents))).toBe(one.netCents);
          const nets = sumCents(one.rows.map(({ netCents }) => netCents));
          expect(one.netCents).toBe(nets - one.sellerNumberFeeCents - one.chargesCents);
          const off = one.commissionCents + one.lotFeesCents + one.noSaleFeesCents;
          expect(one.grossCents - off).toBe(nets);
        }
        const rows = settlements.flatMap((one) => one.rows);
        expect(rows).toHaveLength(facts.outcomes.length);
      }),
    );
  });

  it('does not depend on the order of the rows', () => {
    fc.assert(
      fc.property(anySale, (facts) => {
        const turned = {
          ...facts,
          lots: [...facts.lots].reverse(),
          outcomes: [...facts.outcomes].reverse(),
          charges: [...facts.charges].reverse(),
          sellers: [...facts.sellers].reverse(),
        };
        expect(settleSale(turned)).toEqual(settleSale(facts));
      }),
    );
  });
});

const anyCents = fc.integer({ min: -999_999_999, max: 999_999_999 }).map(cents);

describe('allocate', () => {
  it.each([
    [40_643, [2, 1], [27_095, 13_548]],
    [100, [1, 1, 1], [34, 33, 33]],
    [5, [1, 1], [3, 2]],
    [-5, [1, 1], [-2, -3]],
    [-100, [1, 1, 1], [-33, -33, -34]],
    [-656, [1], [-656]],
    [0, [3, 4], [0, 0]],
    [1, [0, 1], [0, 1]],
    [101, [5, 2, 7], [36, 14, 51]],
  ])('%i by %j is %j', (total, parts, shares) => {
    expect(allocate(cents(total), parts)).toEqual(shares);
  });

  it.each([[[]], [[0, 0]], [[1, -1]], [[2, -1]], [[0.5, 1]]])('throws for the parts %j', (parts) => {
    expect(() => allocate(cents(100), parts)).toThrow(RangeError);
  });

  const anyParts = fc
    .array(fc.integer({ min: 0, max: 1_000_000 }), { minLength: 1, maxLength: 12 })
    .filter((parts) => parts.some((part) => part > 0));

  it('adds up, and gives each its share to within a cent, also of what is owed', () => {
    fc.assert(
      fc.property(anyCents, anyParts, (total, parts) => {
        const shares = allocate(total, parts);
        expect(sumCents(shares)).toBe(total);
        const sum = parts.reduce((so, part) => so + part, 0);
        shares.forEach((share, at) => {
          const exact = new Decimal(total).times(parts[at] ?? 0).dividedBy(sum);
          expect(exact.minus(share).abs().lessThan(1)).toBe(true);
        });
      }),
    );
  });

  it('gives equal parts to the earlier first, and no greater part less', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1_000_000 }).map(cents), anyParts, (total, parts) => {
        const shares = allocate(total, parts);
        for (let a = 0; a < parts.length; a += 1) {
          for (let b = a + 1; b < parts.length; b += 1) {
            const [partA = 0, partB = 0, shareA = 0, shareB = 0] = [parts[a], parts[b], shares[a], shares[b]];
            if (partA >= partB) expect(shareA).toBeGreaterThanOrEqual(shareB);
          }
        }
      }),
    );
  });
});
