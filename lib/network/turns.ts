/** Work that must not all run at once, begun in fair turns: whoever asks for much waits behind themselves only. */
import { MACHINE } from './client.ts';

export interface TurnLimits {
  /** How much runs at once. */
  readonly atOnce: number;
  /** How much of one client may wait, and of all of them together. */
  readonly each: number;
  readonly all: number;
}

export interface Work {
  /** Begins the work; it calls `done` once it is over. */
  readonly begin: (done: () => void) => void;
  /** Called instead if too much waits already. */
  readonly refuse: () => void;
}

export class Turns {
  readonly #limits: TurnLimits;
  /** In the order of whose turn it is. */
  readonly #waiting = new Map<string, Work[]>();
  #waits = 0;
  #running = 0;

  constructor(limits: TurnLimits) {
    this.#limits = limits;
  }

  get waiting(): number {
    return this.#waits;
  }

  /** Begins this work at once or when its client's turn comes. If too much waits, the client with the most loses its newest. */
  add(client: string, work: Work): void {
    if (this.#running < this.#limits.atOnce) return this.#begin(work);
    const own = this.#waiting.get(client) ?? [];
    if (own.length >= this.#limits.each) return work.refuse();
    own.push(work);
    this.#waiting.set(client, own);
    this.#waits += 1;
    if (this.#waits > this.#limits.all) this.#take(this.#greediest(), 'pop')?.refuse();
  }

  #begin(work: Work): void {
    this.#running += 1;
    let over = false;
    work.begin(() => {
      if (over) return;
      over = true;
      this.#running -= 1;
      this.#next();
    });
  }

  #next(): void {
    // The machine itself never waits for the hall.
    const client = this.#waiting.has(MACHINE) ? MACHINE : this.#waiting.keys().next().value;
    const work = client === undefined ? undefined : this.#take(client, 'shift');
    if (work) this.#begin(work);
  }

  #take(client: string, from: 'shift' | 'pop'): Work | undefined {
    const own = this.#waiting.get(client) ?? [];
    const work = own[from]();
    if (work) this.#waits -= 1;
    if (from === 'shift') this.#waiting.delete(client);
    if (own.length > 0) this.#waiting.set(client, own);
    else this.#waiting.delete(client);
    return work;
  }

  #greediest(): string {
    const [first = ['', []]] = [...this.#waiting].sort(([, a], [, b]) => b.length - a.length);
    return first[0] as string;
  }
}
