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

describe('the lease', () => {
  it.each([
    ['of another tab, still good', 3000, 0],
    ['of a clock that has been set back a day since', 86_400_000, 1],
    ['that has run out', -1, 1],
  ])('%s', async (_which, ahead, sent) => {
    begin({ at: 0, way: 'fails', onwards: false });
    const page = await openPage();
    storage.stores.lease?.set('sender', { holder: 'another', until: Date.now() + ahead });
    page.outbox.enqueue(entryOf({ lotNo: '1' }));
    await vi.advanceTimersByTimeAsync(500);
    expect(book.inputs()).toHaveLength(sent);
  });
});
