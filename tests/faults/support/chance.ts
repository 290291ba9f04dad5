/** Chance that comes again: the same seed gives the same numbers. The seed is printed, and FAULT_SEED sets it. */
export interface Chance {
  readonly seed: number;
  /** A whole number from 0 to below `limit`. */
  below(limit: number): number;
}

export function chance(name: string): Chance {
  const seed = Number.parseInt(process.env.FAULT_SEED ?? '', 10) || Date.now() % 2 ** 31;
  console.log(`${name}: FAULT_SEED=${seed}`);
  return { seed, below: chanceOf(seed) };
}

/** The generator is mulberry32, which is small and even enough to draw moments from. */
export function chanceOf(seed: number): Chance['below'] {
  let state = seed;
  const next = () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  return (limit) => Math.floor(next() * limit);
}

/** How many rounds to go: FAULT_ROUNDS, or what fits into the check. */
export function rounds(usual: number): number {
  return Number.parseInt(process.env.FAULT_ROUNDS ?? '', 10) || usual;
}
