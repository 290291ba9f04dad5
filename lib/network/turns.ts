/** Work that must not all run at once, begun in fair turns: whoever asks for much waits behind themselves only. */
import { MACHINE } from './client.ts';

export interface TurnLimits {
  /** How much runs at once, of all clients and of one. */
  readonly atOnce: number;
  readonly eachAtOnce: number;
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
  readonly #running = new Map<string, number>();
  #waits = 0;
  #runs = 0;

  constructor(limits: TurnLimits) {
    this.#limits = limits;
  }

  /** Begins this work at once or when its client's turn comes. If too much waits, the client with the most loses its newest. */
  add(client: string, work: Work): void {
    const own = this.#waiting.get(client) ?? [];
    if (own.length === 0 && this.#mayRun(client)) this.#begin(client, work);
    else if (own.length >= this.#limits.each) work.refuse();
    else this.#wait(client, [...own, work]);
  }

  #mayRun(client: string): boolean {
    return this.#runs < this.#limits.atOnce && (this.#running.get(client) ?? 0) < this.#limits.eachAtOnce;
  }

  #wait(client: string, all: Work[]): void {
    this.#waiting.set(client, all);
    this.#waits += 1;
    if (this.#waits > this.#limits.all) this.#take(this.#greediest(), 'pop')?.refuse();
  }

  #begin(client: string, work: Work): void {
    this.#count(client, 1);
    let over = false;
    work.begin(() => {
      if (over) return;
      over = true;
      this.#count(client, -1);
      this.#next();
    });
  }

  #count(client: string, by: 1 | -1): void {
    this.#runs += by;
    const now = (this.#running.get(client) ?? 0) + by;
    if (now === 0) this.#running.delete(client);
    else this.#running.set(client, now);
  }

  #next(): void {
    // The machine itself never waits for the hall.
    const client = [MACHINE, ...this.#waiting.keys()].find((one) => this.#waiting.has(one) && this.#mayRun(one));
    const work = client === undefined ? undefined : this.#take(client, 'shift');
    if (client === undefined || !work) return;
    this.#begin(client, work);
    this.#next();
  }

  /** Whoever was given a turn comes last the next time. */
  #take(client: string, from: 'shift' | 'pop'): Work | undefined {
    const own = this.#waiting.get(client) ?? [];
    const work = own[from]();
    if (work) this.#waits -= 1;
    if (from === 'shift' || own.length === 0) this.#waiting.delete(client);
    if (own.length > 0) this.#waiting.set(client, own);
    return work;
  }

  #greediest(): string {
    const byCount = [...this.#waiting].sort(([, a], [, b]) => b.length - a.length);
    return byCount[0]?.[0] ?? '';
  }
}
