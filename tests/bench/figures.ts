/** The few statistics of the bench. Times are milliseconds, sizes whole numbers. */

/** The middle value; of an even number of values the mean of the two in the middle. Throws where there is none. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const upper = sorted[Math.floor(sorted.length / 2)];
  const lower = sorted[Math.ceil(sorted.length / 2) - 1];
  if (upper === undefined || lower === undefined) throw new RangeError('Nothing was measured.');
  return (upper + lower) / 2;
}

/** The smallest value that at least `share` (0 to 1) of the values do not exceed: the nearest-rank percentile. */
export function percentile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const found = sorted[Math.max(0, Math.ceil(sorted.length * share) - 1)];
  if (found === undefined) throw new RangeError('Nothing was measured.');
  return found;
}

/** A size of the work, and what it took. */
export interface Grown {
  readonly size: number;
  readonly took: number;
}

/**
 * How the time grows with the size: the slope of the least-squares line through the logarithms of both. 1 is a straight
 * line, 2 a square. Throws for fewer than two sizes.
 */
export function growthExponent(points: readonly Grown[]): number {
  const logs = points.map(({ size, took }) => ({ x: Math.log(size), y: Math.log(took) }));
  const mean = (pick: (point: { x: number; y: number }) => number) =>
    logs.reduce((sum, point) => sum + pick(point), 0) / logs.length;
  const [x, y] = [mean((point) => point.x), mean((point) => point.y)];
  const across = logs.reduce((sum, point) => sum + (point.x - x) ** 2, 0);
  if (across === 0) throw new RangeError('Growth needs two sizes.');
  return logs.reduce((sum, point) => sum + (point.x - x) * (point.y - y), 0) / across;
}

/** How many times as long twice the size takes. */
export function doubling(points: readonly Grown[]): number {
  return 2 ** growthExponent(points);
}
