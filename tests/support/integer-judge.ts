/**
 * The sums once more in whole numbers alone, written with BigInt and without a library: the judge of those that `lib/`
 * works out in decimal.js. Nothing of `lib/money/decimal.ts` is used here.
 */

/** `amount × times ÷ per`, rounded half up: a tie goes away from zero. `per` is above 0. */
export function scaledHalfUp(amount: bigint, times: bigint, per: bigint): bigint {
  const product = amount * times;
  const size = product < 0n ? -product : product;
  const whole = (2n * size + per) / (2n * per);
  return product < 0n ? -whole : whole;
}

/** Decimal text as a whole number of its last place: `3.75` at four places is 37,500. */
export function scaledText(text: string, places: number): bigint {
  const [whole = '', behind = ''] = text.split('.');
  return BigInt(`${whole}${behind.padEnd(places, '0')}`);
}

/** `pct` per cent of an amount, rounded half up. */
export function percentHalfUp(amount: bigint, pct: string): bigint {
  return scaledHalfUp(amount, scaledText(pct, 4), 1_000_000n);
}

/** Shares by largest remainders, a tie to the earlier: the whole cents below, then one each until nothing is left. */
export function sharesOfWhole(total: bigint, parts: readonly bigint[]): bigint[] {
  const all = parts.reduce((so, part) => so + part, 0n);
  const shares = parts.map((part, at) => {
    const remainder = (((total * part) % all) + all) % all;
    return { at, whole: (total * part - remainder) / all, remainder };
  });
  let left = total - shares.reduce((so, { whole }) => so + whole, 0n);
  for (const share of [...shares].sort(
    (a, b) => Number(b.remainder > a.remainder) - Number(b.remainder < a.remainder),
  )) {
    if (left === 0n) break;
    share.whole += 1n;
    left -= 1n;
  }
  return shares.map(({ whole }) => whole);
}
