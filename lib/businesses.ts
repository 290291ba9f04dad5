/** Who trades as one: seller numbers that share a person count as one seller. */

/**
 * Gives each group of people a number that it shares with every group it is linked to by a person, directly or over
 * others. A man who sells alone and also with his brother is no second seller to hide behind.
 */
export function linked<Key>(groups: ReadonlyMap<Key, readonly number[]>): Map<Key, number> {
  const leader = new Map<number, number>();
  const leaderOf = (person: number): number => {
    const next = leader.get(person) ?? person;
    return next === person ? person : leaderOf(next);
  };
  for (const [first, ...others] of groups.values()) {
    if (first !== undefined) for (const other of others) leader.set(leaderOf(other), leaderOf(first));
  }
  return new Map([...groups].map(([key, [first]]) => [key, leaderOf(first ?? 0)]));
}
