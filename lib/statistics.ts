/** Means and quantiles of prices that stand for many pieces each, exact until the caller rounds. */
import { Decimal, type Numeric } from '#lib/decimal.ts';

/** A value that was observed so many times; a lot of 10,000 pieces is one of these. */
export interface Observation {
  readonly value: Numeric;
  /** A whole number from 1. */
  readonly times: number;
}

/**
 * The quantile of type 7 (Hyndman & Fan 1996): with n observations in order, the point (n − 1)p + 1, on the straight
 * line between its neighbours. `observations` are sorted by value; `p` is from 0 to 1. The answer is not rounded.
 */
export function quantileType7(observations: readonly Observation[], p: Numeric): Decimal {
  const total = observations.reduce((so, { times }) => so + times, 0);
  if (total < 1) throw new RangeError('a quantile needs at least one observation');
  const at = new Decimal(p).times(total - 1);
  if (at.isNegative() || at.greaterThan(total - 1)) throw new RangeError('p goes from 0 to 1');
  const below = at.floor();
  const low = nth(observations, below.toNumber());
  const part = at.minus(below);
  if (part.isZero()) return low;
  return nth(observations, below.toNumber() + 1)
    .minus(low)
    .times(part)
    .plus(low);
}

/** The observation at a place counted from 0, without laying the pieces out one by one. */
function nth(observations: readonly Observation[], place: number): Decimal {
  let passed = 0;
  for (const { value, times } of observations) {
    passed += times;
    if (place < passed) return new Decimal(value);
  }
  throw new RangeError(`there is no observation ${place}`);
}

/** The mean of values, each counted as often as it was observed; `times` may be a weight. The answer is not rounded. */
export function weightedMean(observations: readonly { value: Numeric; times: Numeric }[]): Decimal {
  let sum = new Decimal(0);
  let total = new Decimal(0);
  for (const { value, times } of observations) {
    sum = sum.plus(new Decimal(value).times(times));
    total = total.plus(times);
  }
  if (total.isZero()) throw new RangeError('a mean needs at least one observation');
  return sum.dividedBy(total);
}
