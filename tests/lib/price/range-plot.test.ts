import { expect, it } from 'vitest';
import { cents } from '#lib/money/money.ts';
import { evenScale, tenfoldScale } from '#lib/price/plot.ts';

it('puts prices of 0.35 and 390.00 on one scale of tenfold steps', () => {
  const { at, ticks } = tenfoldScale([cents(35), cents(39_000)]);
  expect(ticks.map((tick) => [tick.cents, tick.at])).toEqual([
    [10, 0],
    [100, 250],
    [1000, 500],
    [10_000, 750],
    [100_000, 1000],
  ]);
  expect(at(cents(10_000))).toBe(750);
});

it('counts the years of one kind of goods from nothing in even steps', () => {
  const { at, ticks } = evenScale([cents(350), cents(1475)]);
  expect(ticks.map((tick) => [tick.cents, tick.at])).toEqual([
    [0, 0],
    [500, 333],
    [1000, 667],
    [1500, 1000],
  ]);
  expect(at(cents(750))).toBe(500);
});

it('has a length even for one price', () => {
  expect(tenfoldScale([cents(100)]).ticks.map((tick) => tick.cents)).toEqual([100, 1000]);
  expect(evenScale([cents(1)]).at(cents(1))).toBe(1000);
});
