import { inRunningOrder, placedIn, type RunningOrder } from '#lib/running-order.ts';
import type { OpenLot } from './open-lot.ts';

/** So few are put in their places one by one. */
const FEW = 100;

/** The open lots of a sale, in its running order once that is asked for. */
export class Waiting {
  #lots: readonly OpenLot[] = [];
  /** Those that came since the others were put in order. */
  #added: OpenLot[] = [];
  #order: RunningOrder | undefined;

  add(lot: OpenLot): void {
    this.#added.push(lot);
  }

  remove(lotIds: ReadonlySet<number>): void {
    this.#lots = this.#lots.filter(({ lotId }) => !lotIds.has(lotId));
    this.#added = this.#added.filter(({ lotId }) => !lotIds.has(lotId));
  }

  inOrder(order: RunningOrder): readonly OpenLot[] {
    if (order === this.#order && this.#added.length === 0) return this.#lots;
    const few = order === this.#order && this.#added.length < FEW;
    this.#lots = few
      ? placedIn(order, this.#lots, this.#added)
      : inRunningOrder(order, [...this.#lots, ...this.#added]);
    this.#order = order;
    this.#added = [];
    return this.#lots;
  }
}
