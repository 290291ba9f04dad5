/** Chance that comes out the same for the same seed (mulberry32, a public-domain generator of 32 bits). */
export interface Chance {
  /** A whole number from `min` to `max`, both included. */
  int(min: number, max: number): number;
  pick<T>(from: readonly T[]): T;
  /** True once in so many times. */
  once(inTimes: number): boolean;
  shuffled<T>(items: readonly T[]): T[];
}

export function chanceOf(seed: number): Chance {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const int = (min: number, max: number) => min + Math.floor(next() * (max - min + 1));
  const pick = <T>(from: readonly T[]): T => {
    const found = from[int(0, from.length - 1)];
    if (found === undefined) throw new RangeError('nothing to pick from');
    return found;
  };
  const shuffled = <T>(items: readonly T[]): T[] => {
    const left = [...items];
    return items.flatMap(() => left.splice(int(0, left.length - 1), 1));
  };
  return { int, pick, once: (inTimes) => int(1, inTimes) === 1, shuffled };
}
