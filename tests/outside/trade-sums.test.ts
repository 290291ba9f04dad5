/**
 * Sums that people of the trade do in their heads. Facts of the trade: common practice, no source, unless one is named.
 * The float traps were worked out on paper; what a binary float gives stands beside each.
 */
import { describe, expect, it } from 'vitest';
import { heldUntil } from '#lib/date/date.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { Decimal, percentOf, roundHalfUp } from '#lib/money/decimal.ts';
import { formatMoney, sumCents } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { lot, money, saleFacts, seller, sold } from '#tests/support/facts.ts';

describe('float traps', () => {
  it.each([
    ['6', '12.25', '0.74', '0.73'],
    ['2.5', '3.00', '0.08', '0.07'],
    ['5', '4.10', '0.21', '0.20'],
  ])('%s %% of %s is %s, not the %s of binary floats', (...[pct, amount, exact, wrong]) => {
    expect(formatMoney(roundHalfUp(percentOf(money(amount), rate(pct))))).toBe(exact);
    expect(((Number.parseFloat(amount) * Number.parseFloat(pct)) / 100).toFixed(2)).toBe(wrong);
  });

  it('rounds commission for each lot: three of 2.25 at 10 % make 0.69, where the total would make 0.68', () => {
    const each = roundHalfUp(percentOf(money('2.25'), rate('10')));
    expect(formatMoney(sumCents([each, each, each]))).toBe('0.69');
    expect(formatMoney(roundHalfUp(percentOf(money('6.75'), rate('10'))))).toBe('0.68');
  });

  it('13 oz at 50.00 a pound are 40.625, half up 40.63', () => {
    expect(formatMoney(roundHalfUp(new Decimal(13).dividedBy(16).times(money('50.00'))))).toBe('40.63');
  });
});

describe('sums of the trade (common practice, no source)', () => {
  it('32 muskrats at 13.25 make 424.00', () => {
    expect(formatMoney(lotAmount(money('13.25'), lot('1', { count: 32 })))).toBe('424.00');
  });

  it('18 bobcat pelts that average 125.00 gross 2,250.00', () => {
    const alike = settleSale(saleFacts({ lots: [lot('1', { count: 18 })], outcomes: [sold('1', '125.00')] }));
    expect(alike[0]?.grossCents).toBe(225_000);
    const lots = [lot('1', { count: 9 }), lot('2', { count: 8 }), lot('3')];
    const outcomes = [sold('1', '110.00'), sold('2', '137.50'), sold('3', '160.00')];
    expect(settleSale(saleFacts({ lots, outcomes }))[0]?.grossCents).toBe(225_000);
  });

  it.each([
    // 6 % of a quarter is 0.015, of a half dollar 0.03.
    ['opossum', '0.25', '0.02', '0.23'],
    ['skunk', '0.50', '0.03', '0.47'],
  ])('%s at %s pays %s commission at 6 %% and nets %s', (...[goods, price, commission, net]) => {
    const facts = saleFacts({ sellers: [seller(1)], lots: [lot('1', { goods })], outcomes: [sold('1', price)] });
    const [settled] = settleSale(facts);
    expect([settled?.commissionCents, settled?.netCents]).toEqual([money(commission), money(net)]);
  });

  it('a season that closes on 28 February has a statement of furs held over due by 10 March', () => {
    // The ten days: Neb. Rev. Stat. § 37-464, as an example of a State's rule.
    expect(heldUntil('2026-02-28')).toBe('2026-03-10');
    expect(heldUntil('2024-02-28')).toBe('2024-03-09');
  });
});
