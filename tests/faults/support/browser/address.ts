/**
 * What answers at the address: a small honest server with two books that takes an entry as `answer-entry.ts` does, and
 * a network that loses, doubles, delays and reorders what goes to and fro.
 */
import type { Chance } from '#tests/faults/support/chance.ts';
import type { Clockwork, Life } from './clockwork.ts';

export type BookName = 'one' | 'two';
export const BOOKS: readonly BookName[] = ['one', 'two'];

interface Line {
  readonly key: string;
  readonly author: string;
  readonly n: number;
}

interface Request {
  readonly key: string;
  /** The sign-in at the time of sending; empty for none. */
  readonly cookie: string;
  readonly worker: string;
  readonly book: string;
  readonly input: { readonly n: number; readonly bad: boolean };
}

interface Said {
  readonly status: number;
  readonly type: string;
  readonly body: string;
  readonly headers: Readonly<Record<string, string>>;
}

const JSON_TYPE = 'application/json';
const PROBLEM = 'application/problem+json';

export class Address {
  /** Which book answers just now. */
  serves: BookName = 'one';
  network: 'good' | 'bad' | 'dead' = 'good';
  server: 'well' | 'stopped' | 'failing' = 'well';
  readonly logs: Record<BookName, Line[]> = { one: [], two: [] };
  /** Which entries were sent, to which one the server said no, and which the book refused. */
  readonly sent = new Set<number>();
  readonly saidNo = new Set<number>();
  readonly refused = new Set<number>();
  readonly counts = { requests: 0, lost: 0, answersLost: 0, delayed: 0, doubled: 0, strangers: 0 };
  private readonly signIns = new Map<string, string>();

  constructor(
    private readonly clock: Clockwork,
    private readonly below: Chance['below'],
  ) {}

  /** Gives the cookie. */
  signIn(worker: string): string {
    const cookie = `${worker}-${this.signIns.size}`;
    this.signIns.set(cookie, worker);
    return cookie;
  }

  signOut(cookie: string): void {
    this.signIns.set(cookie, '');
  }

  workerOf(cookie: string): string {
    return this.signIns.get(cookie) ?? '';
  }

  isTaken(n: number): boolean {
    return BOOKS.some((book) => this.logs[book].some((line) => line.n === n));
  }

  private answer({ key, cookie, worker, book, input }: Request): Said {
    const author = this.workerOf(cookie);
    const headers = { 'x-peltry-book': this.serves, ...(author && { 'x-peltry-worker': author }) };
    const problem = (status: number, code: string): Said => {
      this.saidNo.add(input.n);
      const body = JSON.stringify({ title: 'Nothing is written.', detail: `No: ${code}.`, code });
      return { status, type: PROBLEM, body, headers };
    };
    if (!author) return problem(401, 'signed_out');
    if (book && book !== this.serves) return problem(422, 'conflict');
    if (worker && worker !== author) return problem(401, 'signed_out');
    if (this.server === 'stopped') return problem(503, 'stopped');
    if (this.server === 'failing') return { status: 500, type: 'text/html', body: '<h1>No</h1>', headers };
    const log = this.logs[this.serves];
    const before = log.findIndex((line) => line.key === key);
    if (before < 0 && input.bad) {
      this.refused.add(input.n);
      return problem(409, 'on_hold');
    }
    if (before < 0) log.push({ key, author, n: input.n });
    const line = before < 0 ? log.length : before + 1;
    return { status: 200, type: JSON_TYPE, body: JSON.stringify({ ok: true, value: {}, line }), headers };
  }

  /** What one tab sees as `fetch`; the cookie is read when it sends. */
  fetchOf(life: Life, cookieNow: () => string) {
    return (
      _path: string,
      { headers, body, signal }: { headers: Record<string, string>; body: string; signal: number },
    ) =>
      new Promise((resolve, reject) => {
        const request: Request = {
          key: headers['idempotency-key'] ?? '',
          cookie: cookieNow(),
          worker: decodeURIComponent(headers['x-worker'] ?? ''),
          // The book, and behind a colon its epoch.
          book: headers['x-book']?.split(':')[0] ?? '',
          input: JSON.parse(body),
        };
        this.counts.requests += 1;
        this.sent.add(request.input.n);
        const no = () => reject(new TypeError('no answer'));
        this.clock.after(signal, no, life);
        this.carry(request, {
          answered: (said, milliseconds) => this.clock.after(milliseconds, () => resolve(responseOf(said)), life),
          broken: () => this.clock.after(this.below(50), no, life),
        });
      });
  }

  private carry(request: Request, way: { answered(said: Said, milliseconds: number): void; broken(): void }): void {
    const { below, clock, counts } = this;
    const luck = this.network === 'good' ? 99 : this.network === 'dead' ? below(2) : below(14);
    const deliver = (milliseconds: number, andThen: (said: Said) => void = () => undefined) =>
      // The server has it whatever becomes of the tab.
      clock.after(milliseconds, () => andThen(this.answer(request)));
    if (luck <= 1) counts.lost += 1;
    if (luck === 0) way.broken();
    if (luck <= 1) return;
    if (luck <= 3) {
      counts.answersLost += 1;
      return void deliver(below(40), luck === 2 ? way.broken : undefined);
    }
    if (luck <= 5) {
      counts.delayed += 1;
      return void deliver(below(25_000), (said) => way.answered(said, below(9000)));
    }
    if (luck <= 7) {
      counts.doubled += 1;
      deliver(below(30_000));
    }
    if (luck === 8) {
      counts.strangers += 1;
      // A page to sign in to the Wi-Fi, and no server of ours.
      way.answered({ status: 200, type: 'text/html', body: '<h1>Welcome</h1>', headers: {} }, below(40));
      return;
    }
    deliver(below(30), (said) => way.answered(said, below(30)));
  }
}

function responseOf({ status, type, body, headers }: Said) {
  const all: Record<string, string> = { ...headers, 'content-type': type };
  const get = (name: string) => all[name] ?? null;
  return { ok: status < 300, status, headers: { get }, json: async () => JSON.parse(body) };
}
