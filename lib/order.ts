/** Orders texts by Unicode code point, the same on every machine and in every language. */
export function compareCodePoints(a: string, b: string): number {
  if (a === b) return 0;
  const left = [...a];
  const right = [...b];
  const length = Math.min(left.length, right.length);
  for (let at = 0; at < length; at += 1) {
    const difference = pointAt(left, at) - pointAt(right, at);
    if (difference !== 0) return difference;
  }
  return left.length - right.length;
}

function pointAt(points: readonly string[], at: number): number {
  return points[at]?.codePointAt(0) ?? -1;
}
