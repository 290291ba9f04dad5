/** Holds what a browser's screens said against what the books have in the end. */
import type { OutboxState, Reply } from '#app/ui/outbox.ts';
import { type Address, BOOKS, type BookName } from './address.ts';
import type { Tab } from './tab.ts';

interface Typed {
  readonly n: number;
  readonly worker: string;
  readonly book: BookName;
  readonly tab: number;
  /** What the screen of its tab said last: nothing yet, that it waits, or that the browser does not have it. */
  said: 'nothing' | 'being stored' | 'waiting' | 'not kept' | 'not saved' | 'refused';
  /** What its form was told. */
  told: 'nothing' | 'saved' | 'refused' | 'not saved';
  discarded: 'no' | 'asked' | 'before it was sent' | 'after it was sent';
  /** Whether its tab died behind what it said last. */
  orphan: boolean;
  again: boolean;
}

export const PROMISES = [
  'said saved and not in the book',
  'lost',
  'doubled',
  'invented',
  'wrong author',
  'wrong book',
  'reordered',
  'stuck',
] as const;
export type Broken = { readonly [P in (typeof PROMISES)[number]]: number };

export class Checker {
  readonly typed = new Map<number, Typed>();
  readonly broken: Record<(typeof PROMISES)[number], number> = {
    'said saved and not in the book': 0,
    lost: 0,
    doubled: 0,
    invented: 0,
    'wrong author': 0,
    'wrong book': 0,
    reordered: 0,
    stuck: 0,
  };
  readonly findings: string[] = [];

  constructor(private readonly address: Address) {}

  type(n: number, tab: Tab): void {
    const before = this.typed.get(n);
    const { worker, book } = tab.owner;
    const fresh = { said: 'nothing', told: 'nothing', discarded: 'no', orphan: false } as const;
    this.typed.set(n, { n, worker, book, tab: tab.id, ...fresh, again: before !== undefined });
  }

  asksToDiscard(n: number): void {
    const one = this.typed.get(n);
    if (one?.discarded === 'no') one.discarded = 'asked';
  }

  /** Only what the page does not show any more was discarded. */
  discarded(n: number, { entries, refused }: OutboxState): void {
    const one = this.typed.get(n);
    if (!one || [...entries, ...refused].some(({ input }) => numberIn(input) === n)) return;
    one.discarded = this.address.sent.has(n) ? 'after it was sent' : 'before it was sent';
  }

  tell(n: number, reply: Reply): void {
    const one = this.typed.get(n);
    if (!one) return;
    one.told = reply.ok ? 'saved' : reply.message.startsWith('Not saved') ? 'not saved' : 'refused';
    if (reply.ok && !this.address.isTaken(n)) this.breaks('said saved and not in the book', `${n} to its form`);
  }

  /** What a tab shows: an entry that was typed in it and is not shown any more counts as saved. */
  seen(tab: Tab, { entries, refused, saving, notKept, notSaved }: OutboxState): void {
    const numbers = (all: OutboxState['entries']) => new Map(all.map((one) => [numberIn(one.input), one]));
    const [waits, back] = [numbers(entries), numbers(refused)];
    for (const one of this.typed.values()) {
      if (one.tab !== tab.id) continue;
      const shown = waits.get(one.n);
      if (shown)
        // As the mark says it, which is for all of them at once: what was said to wait stays so while another is stored.
        one.said = notKept ? 'not kept' : saving && one.said !== 'waiting' ? 'being stored' : 'waiting';
      else if (back.has(one.n)) one.said = notSaved ? 'not saved' : 'refused';
      else if (one.discarded === 'no' && !this.address.isTaken(one.n) && !this.mayBeGone(one)) {
        this.breaks('said saved and not in the book', `${one.n} is not shown any more`);
      }
    }
  }

  /** One that its form was told of is there, and one that the server said no to is told next. */
  private mayBeGone({ n, told }: Typed): boolean {
    return told === 'refused' || told === 'not saved' || this.address.saidNo.has(n);
  }

  dies(tab: Tab): void {
    for (const one of this.typed.values()) if (one.tab === tab.id) one.orphan = true;
  }

  /** At the end, when everything is well again and everybody has signed in: `last` is what a fresh page shows. */
  judge(last: OutboxState): void {
    const shown = new Set([...last.entries, ...last.refused].map(({ input }) => numberIn(input)));
    for (const { input } of last.entries) this.breaks('stuck', `${numberIn(input)} still waits`);
    const all = BOOKS.flatMap((book) => this.address.logs[book].map((line) => ({ ...line, book })));
    for (const line of all) {
      const one = this.typed.get(line.n);
      if (!one || one.discarded === 'before it was sent') this.breaks('invented', `${line.n}`);
      else if (one.worker !== line.author) this.breaks('wrong author', `${line.n} by ${line.author}`);
      if (one && one.book !== line.book) this.breaks('wrong book', `${line.n} in ${line.book}`);
    }
    const times = new Map<number, number>();
    for (const { n } of all) times.set(n, (times.get(n) ?? 0) + 1);
    for (const [n, many] of times) if (many > 1) this.breaks('doubled', `${n}, ${many} times`);
    for (const one of this.typed.values()) {
      if (!times.has(one.n) && !shown.has(one.n) && !wasTold(one)) this.breaks('lost', JSON.stringify(one));
    }
    this.judgeOrder(times);
  }

  /**
   * What one worker typed in one tab stands in the book in that order. What was given back is no part of it: a copy of
   * its request may still be on its way, and come in when that is taken again.
   */
  private judgeOrder(times: ReadonlyMap<number, number>): void {
    for (const book of BOOKS) {
      const last = new Map<string, number>();
      for (const { n, author } of this.address.logs[book]) {
        const one = this.typed.get(n);
        if (
          !one ||
          one.again ||
          one.told === 'not saved' ||
          one.told === 'refused' ||
          one.said === 'not saved' ||
          one.said === 'refused' ||
          !times.has(n)
        )
          continue;
        const place = `${one.tab} ${author}`;
        if ((last.get(place) ?? 0) > n) this.breaks('reordered', `${n} behind ${last.get(place)}`);
        last.set(place, n);
      }
    }
  }

  /** What the screens said before a tab died, of what is nowhere now. */
  count(): Record<string, number> {
    const all = [...this.typed.values()];
    const gone = all.filter(({ n, orphan }) => orphan && !this.address.isTaken(n));
    const of = (said: Typed['said']) => gone.filter((one) => one.said === said && one.discarded === 'no').length;
    return {
      typed: all.length,
      saved: all.filter(({ n }) => this.address.isTaken(n)).length,
      discarded: all.filter(({ discarded }) => discarded !== 'no').length,
      'refused by the book': this.address.refused.size,
      'gone with their tab, said not kept': of('not kept') + of('not saved'),
      'gone with their tab while being stored': of('being stored') + of('nothing'),
      'said refused, and a late copy of its request went in': all.filter(
        ({ n, told }) => told === 'refused' && this.address.isTaken(n),
      ).length,
      'said not saved, and the book has it': all.filter(
        ({ n, told }) => told === 'not saved' && this.address.isTaken(n),
      ).length,
    };
  }

  private breaks(promise: (typeof PROMISES)[number], what: string): void {
    this.broken[promise] += 1;
    this.findings.push(`${promise}: ${what}`);
  }
}

/** Whether a person knows that it is not in the book, or was never told that anything has it. */
function wasTold({ said, told, discarded, orphan }: Typed): boolean {
  if (discarded !== 'no' || told === 'refused' || told === 'not saved' || said === 'refused') return true;
  return orphan && ['nothing', 'being stored', 'not kept', 'not saved'].includes(said);
}

export function numberIn(input: unknown): number {
  return (input as { n: number }).n;
}
