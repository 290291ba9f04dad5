/** Tabs of one browser: each has the outbox of its own, out of the real code, and shares storage, sign-in and address. */
import { compileFunction } from 'node:vm';
import { build } from 'esbuild';
import type * as Outbox from '#app/ui/outbox.ts';
import type { OutboxState } from '#app/ui/outbox.ts';
import type { Chance } from '#tests/faults/support/chance.ts';
import type { Address, BookName } from './address.ts';
import type { Clockwork, Life } from './clockwork.ts';
import type { SharedStore } from './shared-store.ts';

/** What the browser gives to the code of a page. */
const GIVEN = [
  'indexedDB',
  'fetch',
  'BroadcastChannel',
  'addEventListener',
  'setTimeout',
  'setInterval',
  'clearInterval',
  'performance',
  'AbortSignal',
  'Date',
  'crypto',
  'window',
] as const;

/** Makes one plain text of the outbox, to be run once for each tab. */
export async function bundleOutbox(): Promise<string> {
  const made = await build({
    entryPoints: ['app/ui/outbox.ts'],
    bundle: true,
    write: false,
    format: 'iife',
    globalName: 'outbox',
    platform: 'neutral',
  });
  return `${made.outputFiles[0]?.text ?? ''}\nreturn outbox;`;
}

export interface Owner {
  readonly worker: string;
  readonly book: BookName;
}

export interface Tab {
  readonly id: number;
  readonly life: Life;
  /** Whom and which book the page names. */
  readonly owner: Owner;
  readonly outbox: typeof Outbox;
  state(): OutboxState;
  /** Closed as a person closes it, which the page hears; a kill it does not hear. */
  close(how: 'closed' | 'killed'): void;
}

export type Seen = (tab: Tab, state: OutboxState) => void;

export class Browser {
  readonly tabs = new Set<Tab>();
  cookie = '';
  /** The time of day as this laptop has it. */
  wall = Date.UTC(2026, 1, 28, 10);
  private readonly channels = new Set<Channel>();
  private made = 0;

  constructor(
    private readonly code: string,
    private readonly world: {
      readonly clock: Clockwork;
      readonly store: SharedStore;
      readonly address: Address;
      readonly below: Chance['below'];
    },
  ) {}

  open(owner: Owner, seen: Seen): Tab {
    const { clock, store, address, below } = this.world;
    const life: Life = { dead: false, frozenUntil: 0 };
    const leaving: (() => void)[] = [];
    const stops = new Map<number, () => void>();
    const given: Record<(typeof GIVEN)[number], unknown> = {
      indexedDB: store.of(life),
      fetch: address.fetchOf(life, () => this.cookie),
      BroadcastChannel: this.channelFor(life),
      addEventListener: (name: string, act: () => void) => name === 'pagehide' && leaving.push(act),
      setTimeout: (act: () => void, milliseconds: number) => clock.after(milliseconds, act, life),
      setInterval: (act: () => void, milliseconds: number) => {
        stops.set(stops.size + 1, clock.every(milliseconds, act, life));
        return stops.size;
      },
      clearInterval: (id: number) => stops.get(id)?.(),
      performance: { now: () => clock.now },
      AbortSignal: { timeout: (milliseconds: number) => milliseconds },
      Date: { now: () => this.wall + clock.now },
      crypto: { getRandomValues: (bytes: Uint8Array) => bytes.map(() => below(256)) },
      window: {},
    };
    const outbox: typeof Outbox = compileFunction(this.code, [...GIVEN])(...GIVEN.map((name) => given[name]));
    let last = outbox.EMPTY_OUTBOX;
    this.made += 1;
    const tab: Tab = {
      id: this.made,
      life,
      owner,
      outbox,
      state: () => last,
      close: (how) => {
        if (how === 'closed') for (const act of leaving) act();
        life.dead = true;
        this.tabs.delete(tab);
        store.drop(life);
      },
    };
    this.tabs.add(tab);
    // Pages of an older version say no epoch.
    const page = below(4) > 0 && { page: `${owner.book}:1` };
    outbox.watchOutbox(
      (state) => {
        last = state;
        seen(tab, state);
      },
      { ...owner, ...page },
    );
    return tab;
  }

  private channelFor(life: Life) {
    const { channels } = this;
    const { clock, below } = this.world;
    return class implements Channel {
      onmessage: Channel['onmessage'] = null;
      readonly life = life;
      constructor() {
        channels.add(this);
      }
      postMessage(data: unknown): void {
        for (const one of channels) {
          if (one !== this && !one.life.dead) {
            clock.after(below(5), () => one.onmessage?.({ data: structuredClone(data) }), one.life);
          }
        }
      }
    };
  }
}

interface Channel {
  readonly life: Life;
  onmessage: ((event: { readonly data: unknown }) => void) | null;
}
