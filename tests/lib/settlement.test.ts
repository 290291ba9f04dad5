import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rate, sumCents } from '#lib/money.ts';
import { settleSale } from '#lib/settlement.ts';
import { anySale } from '#tests/support/arbitrary-sale.ts';
import { charge, lot, money, sale, saleFacts, seller, sold, terms, unsold } from '#tests/support/facts.ts';

const own = terms({
  sellerNumberFeeCents: money('5.00'),
  lotFeeCents: money('0.25'),
  noSaleFlatCents: money('1.00'),
});

describe('settleSale', () => {
  it('settles every seller number in order, also one without lots, which then owes its fee', () => {
    const settled = settleSale(saleFacts({ sale: sale({ terms: own }), sellers: [seller(12), seller(2)] }));
    expect(settled.map(({ sellerNo, netCents, lines }) => [sellerNo, netCents, lines])).toEqual([
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
    expect(settled?.lines.map(({ lotNo }) => lotNo)).toEqual(['2', '2A', '2B', '3', '10']);
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
          const nets = sumCents(one.lines.map(({ netCents }) => netCents));
          expect(one.netCents).toBe(nets - one.sellerNumberFeeCents - one.chargesCents);
          const off = one.commissionCents + one.lotFeesCents + one.noSaleFeesCents;
          expect(one.grossCents - off).toBe(nets);
        }
        const lines = settlements.flatMap((one) => one.lines);
        expect(lines).toHaveLength(facts.outcomes.length);
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
