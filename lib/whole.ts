/**
 * Decimal text as a whole number of its smallest unit, digit by digit: `12.5` at two places is 1250. The Block's browser
 * reads prices and weights with this alone, and so carries no library of decimals.
 * `text` is digits with at most one point and no more than `places` digits behind it: the parsers have seen to that.
 */
export function wholeOf(text: string, places: number): number {
  const point = text.indexOf('.');
  const before = point < 0 ? text : text.slice(0, point);
  const behind = point < 0 ? '' : text.slice(point + 1);
  return Number.parseInt(`0${before}${behind.padEnd(places, '0')}`, 10);
}
