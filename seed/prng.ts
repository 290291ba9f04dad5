/** Prng that falls the same way every time: a small generator of its own, started from a word. */

/** Draws whole numbers, and from lists. */
export interface Prng {
  /** A whole number from 0 up to but not including `end`. */
  below(end: number): number;
  /** A whole number between two, both included. */
  between(low: number, high: number): number;
  /** True so many times in a thousand. */
  permille(times: number): boolean;
  pick<T>(from: readonly T[]): T;
  /** Picks by weight: `[['I', 5], ['II', 3]]`. */
  weighted<T>(from: readonly (readonly [T, number])[]): T;
}

/** A stream of its own for each word, so that a change to one part of the demo leaves the others as they were. */
export function prngFor(word: string): Prng {
  const next = mulberry32(fnv1a(word));
  const below = (end: number) => Math.floor((next() / 2 ** 32) * end);
  const pick = <T>(from: readonly T[]): T => at(from, below(from.length));
  return {
    below,
    pick,
    between: (low, high) => low + below(high - low + 1),
    permille: (times) => below(1000) < times,
    weighted: (from) => {
      let left = below(from.reduce((sum, [, weight]) => sum + weight, 0));
      const found = from.find(([, weight]) => {
        left -= weight;
        return left < 0;
      });
      return at(found === undefined ? [] : [found[0]], 0);
    },
  };
}

function at<T>(from: readonly T[], place: number): T {
  const found = from[place];
  if (found === undefined) throw new RangeError('There is nothing to pick from.');
  return found;
}

/** The 32-bit Fowler–Noll–Vo hash (FNV-1a) of a word, by its UTF-16 units. */
export function fnv1a(word: string): number {
  let hash = 0x811c9dc5;
  for (let place = 0; place < word.length; place += 1) hash = Math.imul(hash ^ word.charCodeAt(place), 0x01000193);
  return hash >>> 0;
}

/** The generator known as mulberry32, which its author gave to the public domain. */
function mulberry32(start: number): () => number {
  let state = start;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return (mixed ^ (mixed >>> 14)) >>> 0;
  };
}
