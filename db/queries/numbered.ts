import type { Range } from './scope.ts';

/** Things by their number, which are read range by range, and some of them again. */
export class Numbered<T> {
  readonly #byNumber = new Map<number, T>();
  readonly #due = new Set<number>();
  #inOrder: readonly T[] | undefined;
  /** The highest number of the ranges that were read. */
  upTo = 0;

  putRange({ to }: Range, things: readonly T[], numberOf: (thing: T) => number): void {
    for (const thing of things) this.#byNumber.set(numberOf(thing), thing);
    this.upTo = Math.max(this.upTo, to);
    this.#inOrder = undefined;
  }

  /** What there is of one number now; undefined takes it away. */
  put(number: number, thing: T | undefined): void {
    if (thing === undefined) this.#byNumber.delete(number);
    else this.#byNumber.set(number, thing);
    this.#due.delete(number);
    this.#inOrder = undefined;
  }

  /** Has these read again, and says how many there are by now. */
  wantAgain(numbers: ReadonlySet<number>): number {
    for (const number of numbers) this.#due.add(number);
    return this.#due.size;
  }

  /** Some of those that have to be read again. */
  nextDue(most: number): number[] {
    return [...this.#due].slice(0, most);
  }

  inOrder(): readonly T[] {
    this.#inOrder ??= [...this.#byNumber].sort(([one], [other]) => one - other).map(([, thing]) => thing);
    return this.#inOrder;
  }
}
