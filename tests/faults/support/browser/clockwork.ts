/** Time that a test moves: one list of what happens next, in the order of its moments, and nothing beside it. */

/** A tab as far as time is concerned: nothing reaches one that is dead, and what reaches a frozen one comes later. */
export interface Life {
  dead: boolean;
  frozenUntil: number;
}

interface Due {
  readonly at: number;
  readonly order: number;
  readonly life: Life | undefined;
  readonly act: () => void;
}

export class Clockwork {
  /** Milliseconds since the beginning; it only goes forward. */
  now = 0;
  private readonly due: Due[] = [];
  private order = 0;

  /** Gives a number by which it can be taken back. */
  after(milliseconds: number, act: () => void, life?: Life): number {
    this.order += 1;
    this.put({ at: this.now + Math.max(0, milliseconds), order: this.order, life, act });
    return this.order;
  }

  every(milliseconds: number, act: () => void, life: Life): () => void {
    let stopped = false;
    const again = () => {
      if (stopped) return;
      act();
      this.after(milliseconds, again, life);
    };
    this.after(milliseconds, again, life);
    return () => {
      stopped = true;
    };
  }

  cancel(order: number): void {
    const at = this.due.findIndex((one) => one.order === order);
    if (at >= 0) this.due.splice(at, 1);
  }

  /** Lets so much time go by; between any two things that happen, all promises are seen to. */
  async run(milliseconds: number): Promise<void> {
    const end = this.now + milliseconds;
    await promisesSeenTo();
    for (let next = this.due[0]; next && next.at <= end; next = this.due[0]) {
      this.due.shift();
      this.now = next.at;
      const { life } = next;
      if (life?.dead) continue;
      if (life && life.frozenUntil > this.now) this.put({ ...next, at: life.frozenUntil });
      else {
        next.act();
        await promisesSeenTo();
      }
    }
    this.now = end;
  }

  private put(due: Due): void {
    let at = this.due.length;
    const isLater = (one: Due | undefined) =>
      one !== undefined && (one.at > due.at || (one.at === due.at && one.order > due.order));
    while (isLater(this.due[at - 1])) at -= 1;
    this.due.splice(at, 0, due);
  }
}

const promisesSeenTo = () => new Promise((resolve) => setImmediate(resolve));
