/** What a row of the bench is: a thing that is measured several times beside its bare counterpart. */

export interface Bench {
  /** How often everything is measured. */
  readonly runs: number;
  /** True where the sizes are small: to see that the row works, not for its figures. */
  readonly short: boolean;
}

/** One line of the printed table. */
export interface Line {
  readonly what: string;
  readonly against: string;
  /** One figure a run: mostly how many times the counterpart's. */
  readonly figures: readonly number[];
  /** What the figure counts, such as `×`, `ms` or `lines/s`. */
  readonly unit: string;
  readonly target?: Target;
  /** The times behind the figure in this run; they are no claim about another machine. */
  readonly seen: string;
}

export interface Target {
  readonly atMost?: number;
  readonly atLeast?: number;
}

export type Row = (bench: Bench) => Promise<readonly Line[]> | readonly Line[];

/** Milliseconds that a piece of work takes. */
export function timed(work: () => unknown): number {
  const from = performance.now();
  work();
  return performance.now() - from;
}

export async function timedLater(work: () => Promise<unknown>): Promise<number> {
  const from = performance.now();
  await work();
  return performance.now() - from;
}

/** Measures as often as the bench says, once beforehand so that nothing is measured cold. */
export function repeated<T>({ runs }: Bench, once: () => T): T[] {
  once();
  return Array.from({ length: runs }, () => once());
}

export async function repeatedLater<T>({ runs }: Bench, once: () => Promise<T>): Promise<T[]> {
  await once();
  const taken: T[] = [];
  for (let run = 0; run < runs; run += 1) taken.push(await once());
  return taken;
}
