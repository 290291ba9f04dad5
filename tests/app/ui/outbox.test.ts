import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { OutboxState, Reply } from '#app/ui/outbox.ts';
import type { Posted } from '#app/ui/outbox-held.ts';
import { type Failing, FailingStorage, WAYS } from './failing-storage.ts';

type Answering = 'accepted' | 'refused' | 'request lost' | 'answer lost';

/** The book behind the door: what it has taken, by the key of the entry. */
class Book {
  answering: Answering = 'accepted';
  readonly taken = new Map<string, { readonly input: unknown; readonly line: number }>();

  answer(key: string, input: unknown): Response {
    if (this.answering === 'request lost') throw new TypeError('no answer');
    if (this.answering === 'refused') return problem();
    const known = this.taken.get(key) ?? { input, line: this.taken.size + 1 };
    this.taken.set(key, known);
    if (this.answering === 'answer lost') throw new TypeError('no answer');
    return Response.json({ ok: true, value: {}, line: known.line });
  }

  inputs(): unknown[] {
    return [...this.taken.values()].map(({ input }) => input);
  }
}

const problem = () =>
  Response.json(
    { detail: 'Lot 1 is on hold.', code: 'on_hold' },
    { status: 409, headers: { 'content-type': 'application/problem+json' } },
  );

interface Page {
  readonly outbox: typeof import('#app/ui/outbox.ts');
  readonly state: () => OutboxState;
  /** Every state that a screen was shown. */
  readonly shown: readonly OutboxState[];
}

/** A page that has just been opened: what lay in the memory of the one before is gone. */
async function openPage(): Promise<Page> {
  vi.resetModules();
  const outbox = await import('#app/ui/outbox.ts');
  const shown: OutboxState[] = [];
  outbox.watchOutbox((state) => shown.push(state));
  await vi.advanceTimersByTimeAsync(100);
  return { outbox, shown, state: () => shown.at(-1) ?? outbox.EMPTY_OUTBOX };
}

class Silent {
  onmessage = null;
  postMessage(): void {}
}

let book: Book;
let storage: FailingStorage;

function begin(failing: Failing): void {
  // The page before is closed.
  vi.clearAllTimers();
  book = new Book();
  storage = new FailingStorage(failing);
  vi.stubGlobal('indexedDB', storage);
  vi.stubGlobal('BroadcastChannel', Silent);
  vi.stubGlobal('addEventListener', () => {});
  vi.stubGlobal('fetch', async (_path: string, { headers, body }: { headers: Record<string, string>; body: string }) =>
    book.answer(headers['idempotency-key'] ?? '', JSON.parse(body)),
  );
}

beforeEach(() => {
  vi.useFakeTimers();
});

afterEach(() => {
  vi.clearAllTimers();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

afterAll(() => vi.resetModules());

const LOTS = [{ lotNo: '1' }, { lotNo: '2' }];
/** The outbox does not read an input: these are short. */
const entryOf = (input: object) =>
  ({ station: 'block', command: 'outcome.record', input, label: 'Lot' }) as Posted<'outcome.record'>;
const saysSaved = ({ waiting, notSaved }: OutboxState) => waiting === 0 && !notSaved;
/** A storage that never answers is waited for at each call. */
const settle = (way?: string) => vi.advanceTimersByTimeAsync(way === 'silent' ? 60_000 : 15_000);

/** How many calls a page makes of its storage while it sends the two entries. */
async function callsOfAGoodDay(): Promise<number> {
  begin({ at: 0, way: 'fails', onwards: false });
  const { outbox } = await openPage();
  for (const lot of LOTS) outbox.enqueue(entryOf(lot));
  await settle();
  expect(book.inputs()).toEqual(LOTS);
  return storage.calls;
}

/** Gives both entries, by a form that waits or by one that does not, and what the forms were told. */
function giveBoth({ outbox }: Page, by: 'post' | 'enqueue'): Reply[] {
  const replies: Reply[] = [];
  for (const lot of LOTS) {
    if (by === 'enqueue') outbox.enqueue(entryOf(lot));
    else void outbox.post(entryOf(lot)).then((reply) => replies.push(reply));
  }
  return replies;
}

/** Whether each entry that the book does not have is in the store, or is shown to wait or to have come back. */
function nothingIsLost({ state }: Page): void {
  const stored = storage.entries().map(({ input }) => input);
  const shown = [...state().entries, ...state().refused].map(({ input }) => input);
  for (const lot of LOTS) expect([...stored, ...shown, ...book.inputs()]).toContainEqual(lot);
}

const failings = (calls: number): Failing[] =>
  Array.from({ length: calls }, (_, at) => at + 1).flatMap((at) =>
    WAYS.flatMap((way) => [true, false].map((onwards) => ({ at, way, onwards }))),
  );

describe.each(['post', 'enqueue'] as const)('a storage that fails at any call, entries given by %s', (by) => {
  it('loses and doubles nothing while the book accepts, and says Saved only then', { timeout: 300_000 }, async () => {
    for (const failing of failings(await callsOfAGoodDay())) {
      begin(failing);
      const page = await openPage();
      const before = page.shown.length;
      const replies = giveBoth(page, by);
      for (const state of page.shown.slice(before)) expect(saysSaved(state), JSON.stringify(failing)).toBe(false);
      await settle(failing.way);
      expect(book.inputs(), JSON.stringify(failing)).toEqual(LOTS);
      expect(saysSaved(page.state()), JSON.stringify(failing)).toBe(true);
      expect(replies.map(({ ok }) => ok)).toEqual(by === 'post' ? [true, true] : []);
    }
  });

  it('says every refusal once, and keeps what was typed', { timeout: 300_000 }, async () => {
    for (const failing of failings(await callsOfAGoodDay())) {
      begin(failing);
      book.answering = 'refused';
      const page = await openPage();
      const replies = giveBoth(page, by);
      await settle(failing.way);
      const told = by === 'post' ? replies : page.state().refused.map(({ refusal }) => refusal);
      expect(told, JSON.stringify(failing)).toMatchObject([{ code: 'on_hold' }, { code: 'on_hold' }]);
      if (by === 'enqueue') expect(page.state().refused.map(({ input }) => input)).toEqual(LOTS);
      expect(page.state().waiting).toBe(0);
    }
  });

  it.each(['request lost', 'answer lost'] as const)(
    'loses and doubles nothing where no answer comes (%s), and never says Saved',
    { timeout: 300_000 },
    async (answering) => {
      for (const failing of failings(await callsOfAGoodDay())) {
        begin(failing);
        const page = await openPage();
        book.answering = answering;
        const before = page.shown.length;
        giveBoth(page, by);
        await settle(failing.way);
        for (const state of page.shown.slice(before)) expect(saysSaved(state), JSON.stringify(failing)).toBe(false);
        nothingIsLost(page);
        // The server answers again; whoever was told that nothing is saved saves the same once more.
        book.answering = 'accepted';
        for (const { input } of page.state().refused) page.outbox.enqueue(entryOf(input));
        await settle(failing.way);
        const numbers = book.inputs().map((input) => (input as { lotNo: string }).lotNo);
        expect(numbers.sort(), JSON.stringify(failing)).toEqual(['1', '2']);
        expect(saysSaved(page.state()), JSON.stringify(failing)).toBe(true);
      }
    },
  );
});

describe('a browser that keeps nothing', () => {
  beforeEach(() => begin({ at: 1, way: 'fails', onwards: true }));

  it('says so while the entry is on its way, and gives it back where no answer comes', async () => {
    const page = await openPage();
    book.answering = 'request lost';
    const reply = page.outbox.post(entryOf({ lotNo: '1' }));
    await vi.advanceTimersByTimeAsync(10);
    expect(page.state()).toMatchObject({ waiting: 1, notKept: true, notSaved: false });
    await settle();
    expect(await reply).toMatchObject({
      ok: false,
      message: expect.stringContaining('Not saved: the server does not answer.'),
    });
    expect(page.state()).toMatchObject({ waiting: 0, notKept: false, notSaved: true });
    expect(page.outbox.whatBecameOf(page.state().refused[0] ?? expect.fail())).toBe('Lot.');
  });

  it('sends all the same where there is no channel between its tabs', async () => {
    vi.stubGlobal('BroadcastChannel', undefined);
    const page = await openPage();
    expect(await page.outbox.post(entryOf({ lotNo: '1' }))).toMatchObject({ ok: true });
  });
});

const DAY_MS = 86_400_000;

describe('the lease', () => {
  const GOOD = { at: 0, way: 'fails', onwards: false } as const;
  const another = (beat: number) => storage.stores.lease?.set('sender', { holder: 'another', beat });
  /** The other tab renews its lease each second for so long, while this machine's clock is set to and fro by a day. */
  const beatsFor = async (seconds: number) => {
    for (let beat = 1; beat <= seconds; beat += 1) {
      another(beat);
      vi.setSystemTime(Date.now() + (beat % 2 ? -DAY_MS : DAY_MS));
      await vi.advanceTimersByTimeAsync(1000);
    }
  };

  it('is left to a tab that goes on renewing it, wherever the clock jumps', async () => {
    begin(GOOD);
    const page = await openPage();
    another(0);
    page.outbox.enqueue(entryOf({ lotNo: '1' }));
    await beatsFor(20);
    expect(book.inputs()).toEqual([]);
    expect(page.state().waiting).toBe(1);
  });

  it.each([
    ['stands still', 0],
    ['is set back a day', -DAY_MS],
    ['is set ahead a day', DAY_MS],
  ])('is taken over some seconds after the other tab fell silent, where the clock %s', async (_how, jump) => {
    begin(GOOD);
    const page = await openPage();
    page.outbox.enqueue(entryOf({ lotNo: '1' }));
    another(7);
    vi.setSystemTime(Date.now() + jump);
    await vi.advanceTimersByTimeAsync(3000);
    expect(book.inputs()).toEqual([]);
    await vi.advanceTimersByTimeAsync(4000);
    expect(book.inputs()).toEqual([{ lotNo: '1' }]);
    expect(page.state().waiting).toBe(0);
  });

  it('of an older page of ours, which ends at a time of day, is taken over as well', async () => {
    begin(GOOD);
    storage.stores.lease?.set('sender', { holder: 'another', until: Date.now() + DAY_MS });
    const page = await openPage();
    page.outbox.enqueue(entryOf({ lotNo: '1' }));
    await vi.advanceTimersByTimeAsync(8000);
    expect(book.inputs()).toHaveLength(1);
  });

  it('sends while the clock jumps to and fro and the server is silent, and loses its turn by neither', async () => {
    begin(GOOD);
    const page = await openPage();
    book.answering = 'request lost';
    for (const lot of LOTS) page.outbox.enqueue(entryOf(lot));
    for (const jump of [-DAY_MS, DAY_MS, DAY_MS, -DAY_MS]) {
      vi.setSystemTime(Date.now() + jump);
      await vi.advanceTimersByTimeAsync(2000);
    }
    book.answering = 'accepted';
    await vi.advanceTimersByTimeAsync(3000);
    expect(book.inputs()).toEqual(LOTS);
  });

  it('is no matter of the disk, while entries are written so that a power cut does not take them', async () => {
    begin(GOOD);
    const page = await openPage();
    page.outbox.enqueue(entryOf({ lotNo: '1' }));
    await settle();
    expect([...storage.durable].sort()).toEqual(['entries strict', 'lease default']);
  });
});

describe('an entry that bears who typed it and for which book', () => {
  /** Who is signed in, and which book is served; nobody where empty. */
  let here: { worker: string; book: string };
  /** What went in, under whose name. */
  let taken: string[];

  /** The server: it takes nothing under another name or into another book. */
  const serve = async (_path: string, { headers, body }: { headers: Record<string, string>; body: string }) => {
    const said = { 'x-peltry-book': here.book, ...(here.worker && { 'x-peltry-worker': here.worker }) };
    const refused = (status: number, code: string) =>
      Response.json(
        { detail: 'No.', code },
        { status, headers: { ...said, 'content-type': 'application/problem+json' } },
      );
    if (!here.worker) return refused(401, 'signed_out');
    const [typedFor, epoch] = (headers['x-book'] ?? '').split(':');
    if (typedFor) expect(epoch).toBe('3');
    if (typedFor && typedFor !== here.book) return refused(422, 'conflict');
    if (headers['x-worker'] && headers['x-worker'] !== here.worker) return refused(401, 'signed_out');
    taken.push(`${JSON.parse(body).lotNo} by ${here.worker}`);
    return Response.json({ ok: true, value: {}, line: taken.length }, { headers: said });
  };

  /** A page that is drawn for whoever is signed in. */
  const openAs = async (worker: string, of = here.book) => {
    here = { worker, book: of };
    const page = await openPage();
    page.outbox.watchOutbox(() => {}, { worker, book: of, page: `${of}:3` });
    await vi.advanceTimersByTimeAsync(100);
    return page;
  };

  beforeEach(() => {
    begin({ at: 0, way: 'fails', onwards: false });
    vi.stubGlobal('fetch', serve);
    here = { worker: 'Ada', book: 'one' };
    taken = [];
  });

  it('waits while nobody is signed in, which is said, and goes in behind the next sign-in', async () => {
    const page = await openAs('Ada');
    here = { worker: '', book: 'one' };
    for (const lot of LOTS) page.outbox.enqueue(entryOf(lot));
    await settle();
    expect(page.state()).toMatchObject({ waiting: 2, held: [], why: 'Signed out.' });
    here = { worker: 'Ada', book: 'one' };
    await settle();
    expect(page.state()).toMatchObject({ waiting: 0, why: '' });
    expect(taken).toEqual(['1 by Ada', '2 by Ada']);
  });

  it('is not sent under the name of whoever signs in next, whose own entries are', async () => {
    const before = await openAs('Ada');
    here = { worker: '', book: 'one' };
    for (const lot of LOTS) before.outbox.enqueue(entryOf(lot));
    await settle();
    vi.clearAllTimers();
    const page = await openAs('Bea');
    page.outbox.enqueue(entryOf({ lotNo: '3' }));
    await settle();
    expect(taken).toEqual(['3 by Bea']);
    expect(page.state().held.map(({ worker }) => worker)).toEqual(['Ada', 'Ada']);
    expect(saysSaved(page.state())).toBe(false);
    vi.clearAllTimers();
    const again = await openAs('Ada');
    await settle();
    expect(taken).toEqual(['3 by Bea', '1 by Ada', '2 by Ada']);
    expect(again.state()).toMatchObject({ waiting: 0, held: [] });
  });

  it('is not sent where somebody else signed in behind the back of this page', async () => {
    const page = await openAs('Ada');
    here = { worker: 'Bea', book: 'one' };
    page.outbox.enqueue(entryOf({ lotNo: '1' }));
    await settle();
    expect(taken).toEqual([]);
    expect(page.state()).toMatchObject({ waiting: 1, held: [{ worker: 'Ada' }], here: { worker: 'Bea' } });
  });

  it('is not sent to another book, and is let go of by hand', async () => {
    const before = await openAs('Ada', 'one');
    vi.stubGlobal('fetch', () => Promise.reject(new TypeError('no answer')));
    before.outbox.enqueue(entryOf({ lotNo: '1' }));
    await settle();
    vi.clearAllTimers();
    vi.stubGlobal('fetch', serve);
    const page = await openAs('Ada', 'two');
    await settle();
    expect(taken).toEqual([]);
    expect(page.state().held).toMatchObject([{ book: 'one' }]);
    await page.outbox.takeBack(page.state().held[0]?.id ?? 0);
    expect(page.state()).toMatchObject({ waiting: 0, held: [] });
    expect(storage.entries()).toEqual([]);
  });

  it('goes back into its form where only this page has it, and the server takes it under no other name', async () => {
    begin({ at: 1, way: 'fails', onwards: true });
    vi.stubGlobal('fetch', serve);
    const page = await openAs('Ada');
    here = { worker: 'Bea', book: 'one' };
    expect(await page.outbox.post(entryOf({ lotNo: '1' }))).toMatchObject({ ok: false, code: 'signed_out' });
    expect(taken).toEqual([]);
  });
});
