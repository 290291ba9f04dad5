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

/** `1 lot`, `12 lots`: so many of a thing whose plural is made with an s. */
export function countWords(count: number, thing: string): string {
  return count === 1 ? `1 ${thing}` : `${count} ${thing}s`;
}

/** The items of each key, in the order in which they came. */
export function groupBy<T, K>(items: Iterable<T>, keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    const own = groups.get(key);
    if (own === undefined) groups.set(key, [item]);
    else own.push(item);
  }
  return groups;
}

/** What is made when it is first asked for, and kept. */
export function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/**
 * A text for a spreadsheet: one that would be taken for a formula gets an apostrophe in front. The characters are those
 * that OWASP names under CSV injection. For columns of text only: a figure below nothing begins with a minus, too.
 */
export function withoutFormula(text: string): string {
  return /^[=+\-@\t\r\0]/.test(text) ? `'${text}` : text;
}

const FIGURE = /^-?\d+(\.\d+)?$/;

/** The same for a table whose columns are not told apart: a plain figure is no formula, whatever its sign. */
export function withoutFormulaOrFigure(cell: string): string {
  return FIGURE.test(cell) ? cell : withoutFormula(cell);
}
