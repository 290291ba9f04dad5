import fc from 'fast-check';

/** How many rounds chance is given; what is not seen in as many is not reached at all. */
const ROUNDS = 100;

/**
 * Asserts a property of random acts, and goes on, a round at a time, until everything `wanted` was `seen` by it.
 * One round leaves a rare act out now and then, which says nothing about the acts: so no test may hang on one round.
 *
 * @param property what is asserted, made anew for each round of what is still missing, which it may draw more often;
 *   it adds to `seen` what it met
 * @param about `numRuns` are the histories of one round; `wanted` what has to be in `seen` in the end
 * @throws the counterexample that fast-check found
 */
export function assertUntilSeen<T>(
  property: fc.IRawProperty<T> | ((missing: readonly string[]) => fc.IRawProperty<T>),
  about: { seen: ReadonlySet<string>; wanted: readonly string[] } & fc.Parameters<T>,
): void {
  const { seen, wanted, ...parameters } = about;
  for (let round = 1; round <= ROUNDS; round += 1) {
    const missing = wanted.filter((one) => !seen.has(one));
    fc.assert(typeof property === 'function' ? property(missing) : property, parameters);
    if (wanted.every((one) => seen.has(one))) return;
  }
}
