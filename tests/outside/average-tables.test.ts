/**
 * Average prices against tables that agencies published of what fur brought, so weighted by the number of pelts.
 * Indiana Department of Natural Resources, fur buyers' survey 2004-05 and 2003-04, as reprinted in a newspaper of
 * January 9, 2006; Saskatchewan, 2016-17, as reprinted in regional news of December 2017. Reprints, not the originals.
 */
import { describe, expect, it } from 'vitest';
import { lotAmount } from '#lib/lot/amount.ts';
import { Decimal, roundHalfUp } from '#lib/money/decimal.ts';
import { formatMoney, sumCents } from '#lib/money/money.ts';
import { priceTable, rowOf } from '#lib/price/table.ts';
import { lot, money, priced, saleFacts, sold } from '#tests/support/facts.ts';

const INDIANA_2004 = [
  ['muskrat', 48_986, '2.50'],
  ['raccoon', 129_630, '7.77'],
  ['red fox', 1923, '12.46'],
  ['gray fox', 530, '13.85'],
  ['mink', 2751, '11.10'],
  ['opossum', 6214, '1.29'],
  ['skunk', 328, '2.82'],
  ['beaver', 3095, '11.21'],
  ['coyote', 4470, '10.57'],
  ['long-tailed weasel', 13, '0.94'],
] as const;

describe('Indiana 2004-05', () => {
  const observations = INDIANA_2004.map(([, times, average]) => ({ value: money(average), times }));

  it('is 197,940 pelts, 6.48 on average and not the plain mean of the ten averages', () => {
    expect(INDIANA_2004.reduce((so, [, count]) => so + count, 0)).toBe(197_940);
    expect(rowOf(observations.map(priced))).toMatchObject([{ averageCents: money('6.48') }]);
    // One piece of each: 7.451.
    const plain = rowOf(observations.map(({ value }) => priced({ value, times: 1 })));
    expect(plain).toMatchObject([{ averageCents: money('7.45') }]);
  });

  it('comes within half a cent a pelt of the printed total of 1,282,820.35', () => {
    const total = sumCents(INDIANA_2004.map(([, count, average]) => lotAmount(money(average), lot('1', { count }))));
    expect(formatMoney(total)).toBe('1282423.37');
    expect(Math.abs(128_282_035 - total)).toBeLessThanOrEqual(197_940 / 2);
    expect(formatMoney(roundHalfUp(new Decimal(128_282_035).dividedBy(197_940)))).toBe('6.48');
  });

  it('gives 6.48 in the price table too, however many pieces a lot has', () => {
    const lots = INDIANA_2004.map(([, count], at) => lot(String(at + 1), { goods: 'pelt', count }));
    const outcomes = INDIANA_2004.map(([, , average], at) => sold(String(at + 1), average));
    expect(priceTable(saleFacts({ lots, outcomes }))).toMatchObject([{ quantity: '197940', averageCents: 648 }]);
  });
});

describe('Indiana 2003-04', () => {
  it.each([
    ['raccoon', 150_850, 126_943_800, '8.42'],
    ['muskrat', 45_754, 12_103_729, '2.65'],
  ])('%s: %i pelts for %i cents are %s each', (...[, count, totalCents, average]) => {
    expect(formatMoney(roundHalfUp(new Decimal(totalCents).dividedBy(count)))).toBe(average);
  });
});

describe('Saskatchewan 2016-17', () => {
  it.each([
    ['beaver', 8616, '15.33', '132083.28'],
    ['muskrat', 18_696, '3.42', '63940.32'],
    ['coyote', 24_380, '111.47', '2717638.60'],
    ['marten', 4165, '99.01', '412376.65'],
  ])('%s: %i at %s make %s', (...[, count, price, total]) => {
    expect(formatMoney(lotAmount(money(price), lot('1', { count })))).toBe(total);
  });
});
