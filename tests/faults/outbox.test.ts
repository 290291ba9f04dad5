import { describe, expect, it } from 'vitest';
import type { Posted } from '#app/ui/outbox-held.ts';
import { Address, type BookName } from '#tests/faults/support/browser/address.ts';
import { Checker, numberIn, PROMISES } from '#tests/faults/support/browser/checker.ts';
import { Clockwork } from '#tests/faults/support/browser/clockwork.ts';
import { SharedStore } from '#tests/faults/support/browser/shared-store.ts';
import { Browser, bundleOutbox, type Owner, type Tab } from '#tests/faults/support/browser/tab.ts';
import { type Chance, chance, chanceOf, rounds } from '#tests/faults/support/chance.ts';

const ENTRIES = 40;
const WORKERS = ['Ada', 'Bea'] as const;
const MOST_TABS = 3;
const DAY_MS = 86_400_000;
/** Long enough for every retry, delayed request and late answer of the storage to come to its end. */
const SETTLED_MS = 60_000;

/** One browser over some hours, with everything going wrong at times; gives what the checker found and counted. */
async function day(code: string, below: Chance['below']) {
  const clock = new Clockwork();
  const store = new SharedStore(clock, below);
  const address = new Address(clock, below);
  const checker = new Checker(address);
  const browser = new Browser(code, { clock, store, address, below });
  const pick = <T>(all: readonly T[]): T | undefined => all[below(all.length)];
  const count = { killed: 0, closed: 0, frozen: 0, clocks: 0, 'sign-ins': 0 };
  let made = 0;

  const open = (owner: Owner = { worker: address.workerOf(browser.cookie), book: address.serves }) =>
    browser.open(owner, (tab, state) => checker.seen(tab, state));
  const close = (tab: Tab, how: 'killed' | 'closed') => {
    tab.close(how);
    checker.dies(tab);
    count[how] += 1;
  };
  const give = (tab: Tab, n: number, input: { n: number; bad: boolean }) => {
    checker.type(n, tab);
    const entry = { station: 'block', command: 'outcome.record', input, label: `Entry ${n}` } as unknown as Posted;
    if (below(2) === 0) tab.outbox.enqueue(entry);
    else void tab.outbox.post(entry).then((reply) => !tab.life.dead && checker.tell(n, reply));
  };
  const signIn = (worker: string) => {
    if (below(2) === 0) address.signOut(browser.cookie);
    browser.cookie = worker ? address.signIn(worker) : '';
    count['sign-ins'] += 1;
  };
  const switchTo = (book: BookName) => {
    address.serves = book;
  };
  /** What a person does with what came back, or waits for somebody else. */
  const lookAtWhatIsShown = (tab: Tab) => {
    const { refused, held } = tab.state();
    const one = pick([...refused, ...held]);
    if (!one?.id) return;
    const own = checker.typed.get(numberIn(one.input));
    const again = one.refusal?.message.startsWith('Not saved') && own?.tab === tab.id && below(3) > 0;
    if (again) return give(tab, numberIn(one.input), one.input as unknown as { n: number; bad: boolean });
    if (below(4) > 0) return;
    const n = numberIn(one.input);
    checker.asksToDiscard(n);
    void tab.outbox.takeBack(one.id).then(() => !tab.life.dead && checker.discarded(n, tab.state()));
  };

  const freeze = (tab: Tab) => {
    tab.life.frozenUntil = clock.now + below(15_000);
    count.frozen += 1;
  };
  const setClock = () => {
    browser.wall += (below(2) ? 1 : -1) * below(DAY_MS);
    count.clocks += 1;
  };
  const type = (tab: Tab) => {
    if (!tab.owner.worker) return;
    made += 1;
    give(tab, made, { n: made, bad: below(8) === 0 });
  };
  const change = () => {
    address.network = pick(['good', 'bad', 'dead', 'good', 'bad'] as const) ?? 'good';
    address.server = pick(['well', 'stopped', 'failing', 'well', 'well', 'well'] as const) ?? 'well';
  };
  const changeStore = () => {
    store.mood = pick(['good', 'good', 'good', 'flaky', 'flaky', 'full', 'broken'] as const) ?? 'good';
  };

  const acts: readonly (readonly [number, (tab: Tab) => void])[] = [
    [30, type],
    [6, lookAtWhatIsShown],
    [8, change],
    [5, changeStore],
    [2, () => switchTo(address.serves === 'one' ? 'two' : 'one')],
    [3, () => signIn(pick([...WORKERS, '']) ?? '')],
    [3, freeze],
    [3, setClock],
    [4, (tab) => close(tab, 'killed')],
    [3, (tab) => close(tab, 'closed')],
    [6, () => browser.tabs.size < MOST_TABS && open()],
  ];
  const all = acts.reduce((sum, [weight]) => sum + weight, 0);
  const act = (tab: Tab) => {
    let at = below(all);
    for (const [weight, one] of acts) {
      if (at < weight) return one(tab);
      at -= weight;
    }
  };

  signIn('Ada');
  while (made < ENTRIES) {
    act(pick([...browser.tabs]) ?? open());
    // Often within the milliseconds of a single call to the storage.
    await clock.run(below(3) === 0 ? below(6000) : below(20));
  }
  // All is well again, and everybody signs in on both books until nothing can wait any more.
  Object.assign(store, { mood: 'good' });
  Object.assign(address, { network: 'good', server: 'well' });
  await clock.run(SETTLED_MS);
  for (const tab of browser.tabs) close(tab, 'closed');
  let last = open();
  for (const book of ['one', 'two', 'one'] as const) {
    for (const worker of WORKERS) {
      close(last, 'closed');
      switchTo(book);
      signIn(worker);
      last = open();
      await clock.run(SETTLED_MS);
    }
  }
  checker.judge(last.state());
  return { checker, counts: { ...count, ...address.counts, ...checker.count() }, faults: store.faults };
}

describe('the outbox of a browser on bad days', () => {
  it('loses nothing unsaid, doubles nothing, and puts nothing under another name or into another book', {
    timeout: 3_600_000,
  }, async () => {
    const days = rounds(10);
    const { seed } = chance('outbox');
    const code = await bundleOutbox();
    const sums: Record<string, number> = {};
    const broken = Object.fromEntries(PROMISES.map((promise) => [promise, 0]));
    for (let round = 0; round < days; round += 1) {
      const own = (seed + round) % 2 ** 31;
      const { checker, counts, faults } = await day(code, chanceOf(own));
      for (const [what, n] of Object.entries({ ...counts, ...faults })) sums[what] = (sums[what] ?? 0) + n;
      for (const promise of PROMISES) broken[promise] = (broken[promise] ?? 0) + checker.broken[promise];
      if (checker.findings.length > 0) {
        console.error(`FAULT_SEED=${own} FAULT_ROUNDS=1 gives it again: ${checker.findings.slice(0, 5).join('; ')}`);
      }
    }
    console.log(`${days} days: ${JSON.stringify(sums)}; broken: ${JSON.stringify(broken)}`);
    expect(broken).toEqual(Object.fromEntries(PROMISES.map((promise) => [promise, 0])));
    // A day on which nothing went wrong, or nothing went in, would prove nothing.
    expect(sums.saved).toBeGreaterThan((sums.typed ?? 0) / 4);
    for (const what of ['killed', 'lost', 'delayed', 'doubled', 'throws', 'aborts', 'late', 'mute']) {
      expect(sums[what], what).toBeGreaterThan(0);
    }
  });
});
