/** Where prices stand along a drawn scale, in thousandths of its length. Drawing only: no figure is taken from it. */
import { type Cents, cents } from '#lib/money/money.ts';

interface Tick {
  readonly cents: Cents;
  readonly at: number;
}

export interface Scale {
  readonly ticks: readonly Tick[];
  /** 0 to 1000. */
  readonly at: (price: Cents) => number;
}

const STEPS = [1, 2, 5] as const;

/** Each tick ten times the one before it, so that opossum and bobcat can stand on one scale. Prices are above 0. */
export function tenfoldScale(prices: readonly Cents[]): Scale {
  const from = Math.floor(Math.log10(Math.max(1, Math.min(...prices))));
  const to = Math.max(from + 1, Math.ceil(Math.log10(Math.max(1, ...prices))));
  const at = (price: Cents) => share(Math.log10(Math.max(1, price)) - from, to - from);
  const ticks = Array.from({ length: to - from + 1 }, (_, step) => cents(10 ** (from + step)));
  return { at, ticks: ticks.map((tick) => ({ cents: tick, at: at(tick) })) };
}

/** From nothing to the highest price, in even steps of 1, 2 or 5: for the same goods over the years. */
export function evenScale(prices: readonly Cents[]): Scale {
  const high = Math.max(1, ...prices);
  const step = evenStep(high);
  const top = Math.ceil(high / step) * step;
  const at = (price: Cents) => share(price, top);
  const ticks = Array.from({ length: top / step + 1 }, (_, number) => cents(number * step));
  return { at, ticks: ticks.map((tick) => ({ cents: tick, at: at(tick) })) };
}

/** The smallest even step that needs at most four of itself. */
function evenStep(high: number): number {
  for (let ten = 1; ; ten *= 10) {
    const step = STEPS.find((one) => one * ten * 4 >= high);
    if (step !== undefined) return step * ten;
  }
}

function share(part: number, whole: number): number {
  return Math.round((1000 * part) / whole);
}
